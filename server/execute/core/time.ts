/** delay, delayMicroseconds, millis, micros, pulseIn, avr-libc's delays, sleep, watchdog, clock divisor. Source: wiring.c, wiring_pulse.c; util/delay.h, avr/power.h. */
import * as number from "../domain/number.js";
import { bitOf } from "../hardware/alternatives.js";
import { BYTE } from "../hardware/machine.js";
import { isRunning } from "../hardware/modes.js";
import { countedSpell, delaySpell, microsecondSpell, type Spell, UNBOUNDED } from "../pulses/waits.js";
import { coreContext, writeRegister } from "../register-writes.js";
import type { Run } from "../run.js";
import { snapshotOf } from "../snapshot.js";
import { spendCycles } from "../spending.js";
import type { State } from "../state.js";
import { passTime, standForEver } from "../time-passing.js";
import type { Value } from "../value.js";
import type { CoreCall, Model } from "./core.js";
import { initCore } from "./init.js";
import { interruptsEnabled } from "./interrupt-control.js";

/** Calling a wait of no length and coming back at once. */
const SHORT_CALL = 300;

/** A wait of some length; none at all where the length is 0. `perUnit`: CPU cycles that one unit of the argument surely takes. */
function wait(perUnit: (run: Run) => number, spell: (run: Run, length: Value | undefined) => Spell): Model {
  return (call) => {
    const { run, state, expression, values } = call;
    if (LISTED.has(call.name))
      run.collector.call(run, call.name, expression.start, expression.end, expression.written, values);
    const length = values[0];
    const least = length === undefined || "targets" in length ? 0 : Math.max(0, length.min);
    const never = length !== undefined && "zeros" in length && number.holdsOnly(length, 0);
    if (never) spendCycles(run, state, SHORT_CALL);
    else passTime(run, state, expression.start, Math.max(0, least * perUnit(run) - 200), spell(run, length));
    return null;
  };
}

/**
 * delay() counts micros(), which counts timer 0: where that stands still, or its overflow is not counted, the wait never
 * ends. With interrupts off one overflow is still seen, enough for 2 ms at most.
 */
function delay(call: CoreCall): null {
  const { run, state, expression, values } = call;
  list(call);
  const length = values[0] !== undefined && "zeros" in values[0] ? values[0] : null;
  if (length !== null && number.holdsOnly(length, 0)) {
    spendCycles(run, state, SHORT_CALL);
    return null;
  }
  const clock = timeBase(run, state);
  const counted = clock === "as the core set it";
  const shortest = length?.min ?? 0;
  if (clock === "stands still" || (clock === "not counted" && shortest > 2)) {
    standForEver(run, state, expression.start);
    return null;
  }
  if (clock !== "as the core set it" && clock !== "runs otherwise") {
    const stuck = state.fork();
    standForEver(run, stuck, expression.start);
  }
  const timer = run.layout.timers.find((candidate) => candidate.fact.number === 0);
  const undisturbed = timer !== undefined && (counted || clock === "runs otherwise");
  passTime(
    run,
    state,
    expression.start,
    counted ? Math.max(0, (shortest * run.target.fCpu) / 1000 - 200) : 0,
    undisturbed ? delaySpell(state.machine, timer, run.target.fCpu, values[0]) : UNBOUNDED,
  );
  return null;
}

type TimeBase = "as the core set it" | "runs otherwise" | "not counted" | "stands still" | "not known";

function timeBase(run: Run, state: State): TimeBase {
  const timer = run.layout.timers.find((candidate) => candidate.fact.number === 0);
  if (timer === undefined) return "not known";
  const { machine } = state;
  const running = isRunning(machine, timer);
  if (running === false) return "stands still";
  const mask = machine.raw(run.layout.address(timer.fact.interruptMask));
  const counted = interruptsEnabled(state);
  const overflow = bitOf(mask, 0);
  if (counted === false || overflow === false) return "not counted";
  if (running === null || counted === null || overflow === null) return "not known";
  const gate = machine.raw(run.layout.address(timer.fact.powerReduction.register));
  if (gate.max !== 0) return "not known";
  const [a, b] = timer.control;
  const modes = machine.raw(a!);
  const same = (modes.ones & 3) === 3 && number.holdsOnly(machine.raw(b!), 3);
  return same ? "as the core set it" : "runs otherwise";
}

function listed(call: CoreCall): null {
  list(call);
  return null;
}

/** Puts the call on record with the state of the timer that the core counts time by. */
function list(call: CoreCall): void {
  const { run, state, expression, values } = call;
  const record = run.collector.call(run, call.name, expression.start, expression.end, expression.written, values);
  record.timers.add(0);
  const timer = run.layout.timers.find((candidate) => candidate.fact.number === 0);
  if (timer === undefined || record.effects.length > 0) return;
  const snapshot = snapshotOf(state.machine, timer);
  run.collector.effect(record, snapshot, snapshot, state.conditions);
}

const LISTED = new Set(["delayMicroseconds", "pulseIn", "pulseInLong"]);

/** clock_prescale_set: both steps of the timed sequence. */
function clockPrescaleSet(call: CoreCall): null {
  const { run, state, expression } = call;
  const address = run.layout.address("CLKPR");
  const value = call.values[0];
  const context = coreContext(expression.start, expression.end);
  writeRegister(run, state, address, false, number.constant(0x80, BYTE), context);
  writeRegister(
    run,
    state,
    address,
    false,
    value !== undefined && "zeros" in value ? value : number.top(BYTE),
    context,
  );
  return null;
}

export const timeModels: Readonly<Record<string, Model>> = {
  delay,
  delayMicroseconds: wait(
    (run) => run.target.fCpu / 1_000_000,
    (run, length) => microsecondSpell(run.target.fCpu, length),
  ),
  _delay_ms: wait(
    (run) => run.target.fCpu / 1000,
    (run, length) => countedSpell(length, run.target.fCpu / 1000),
  ),
  _delay_us: wait(
    (run) => run.target.fCpu / 1_000_000,
    (run, length) => countedSpell(length, run.target.fCpu / 1_000_000),
  ),
  _delay_loop_1: wait(
    () => 3,
    (_, length) => countedSpell(length, 3, 0x100),
  ),
  _delay_loop_2: wait(
    () => 4,
    (_, length) => countedSpell(length, 4, 0x10000),
  ),
  __builtin_avr_delay_cycles: wait(
    () => 1,
    (_, length) => countedSpell(length, 1),
  ),
  pulseIn: wait(
    () => 0,
    () => UNBOUNDED,
  ),
  pulseInLong: wait(
    () => 0,
    () => UNBOUNDED,
  ),
  millis: listed,
  micros: listed,
  sleep_mode: wait(
    () => 0,
    () => UNBOUNDED,
  ),
  sleep_cpu: wait(
    () => 0,
    () => UNBOUNDED,
  ),
  clock_prescale_set: clockPrescaleSet,
  // A main() of the sketch's own may call it.
  init: (call) => {
    initCore(call.run, call.state);
    return null;
  },
};
