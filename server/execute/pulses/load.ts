/**
 * What interrupt routines take from the main program. Law: as long as no routine without a rate of its own comes more than
 * a thousand times a second (an assumption, told in DEVELOPERS), the real program is never held up for longer.
 */
import type { Expression, FunctionCode } from "../../program/ir.js";
import type { LoweredProgram } from "../../program/program.js";
import { interruptsEnabled } from "../core/interrupt-control.js";
import * as number from "../domain/number.js";
import type { TimerSlot } from "../hardware/layout.js";
import { modesOf, shortestPeriod } from "../hardware/modes.js";
import type { Run } from "../run.js";
import type { State } from "../state.js";
import { costOfRoutine } from "./routine-cost.js";

/** One source of interruptions. */
export interface Interruption {
  /** Cycles that it takes each time, at most. */
  readonly cycles: number;
  /** Cycles from one to the next, at least. */
  readonly every: number;
}

/** The core's overflow routine for millis, 101 cycles in the oracle's machine, rounded up. */
const MILLIS_ROUTINE = 110;
/** tone()'s routine; the Servo library's, which computes with 32 bits. */
const TONE_ROUTINE = 150;
const SERVO_ROUTINE = 250;
const ASSUMED_RATE = 1_000;
/** The serial port's routines, one to send and one to receive (HardwareSerial.cpp): a byte of ten bits at 115,200 a second at most. */
const SERIAL: Interruption = { cycles: 130, every: 1_388 };

const libraryUsers = new WeakMap<LoweredProgram, boolean>();

/** Whether the program calls objects of the core or of a library that comes with it: the serial port most of all. */
function usesLibraries(program: LoweredProgram): boolean {
  const known = libraryUsers.get(program);
  if (known !== undefined) return known;
  const found = program.functions.some((code) => code.body !== null && callsLibrary(code.body));
  libraryUsers.set(program, found);
  return found;
}

function callsLibrary(part: object): boolean {
  // Assembly tells its cycles: it is no call.
  if (isCall(part)) return true;
  return Object.values(part).some((each: unknown) =>
    Array.isArray(each) ? each.some((one) => isPart(one) && callsLibrary(one)) : isPart(each) && callsLibrary(each),
  );
}

function isCall(part: object): boolean {
  const { op, takesTime, cycles } = part as Partial<Extract<Expression, { op: "unknown" }>>;
  return op === "unknown" && takesTime !== undefined && cycles === undefined;
}

/** Statements, expressions and the cases of a switch; functions and variables are looked at by themselves. */
function isPart(value: unknown): value is object {
  return typeof value === "object" && value !== null && ("op" in value || ("values" in value && "body" in value));
}

/** Everything that may interrupt the program while it is in one of the states, but for one routine. */
export function interruptionsOf(
  run: Run,
  states: readonly State[],
  except: FunctionCode | null = null,
): Interruption[] {
  if (states.every((state) => interruptsEnabled(state) === false)) return [];
  const found: Interruption[] = [];
  const sources = [...run.program.interrupts, ...new Set(states.flatMap((state) => state.core.attached))];
  for (const code of sources) {
    if (code === except) continue;
    const cycles = costOfRoutine(code) + (code.interrupt === null ? 150 : 0);
    const timer = timerOf(run, code);
    if (timer === null) found.push({ cycles, every: run.target.clockHz / ASSUMED_RATE });
    else if (states.some((state) => mayBeOn(run, state, code))) found.push({ cycles, every: shortest(states, timer) });
  }
  const own = run.program.interrupts.some((code) => code.interrupt === "TIMER0_OVF");
  const zero = run.layout.timers.find((timer) => timer.fact.number === 0);
  if (zero !== undefined && !own && states.some((state) => (mask(run, state, zero).zeros & 1) === 0))
    found.push({ cycles: MILLIS_ROUTINE, every: shortest(states, zero) });
  if (run.collector.regime === "running" && usesLibraries(run.program)) found.push(SERIAL, SERIAL);
  const two = run.layout.timers.find((timer) => timer.fact.number === 2);
  if (two !== undefined && states.some((state) => state.core.tonePin !== -1))
    found.push({ cycles: TONE_ROUTINE, every: shortest(states, two) });
  if (states.some((state) => state.core.servoPins.length > 0))
    found.push({ cycles: SERVO_ROUTINE, every: (400 * run.target.fCpu) / 1_000_000 });
  return found;
}

function mask(run: Run, state: State, timer: TimerSlot) {
  return state.machine.raw(run.layout.address(timer.fact.interruptMask));
}

function timerOf(run: Run, code: FunctionCode): TimerSlot | null {
  const vector = code.interrupt ?? "";
  return (
    run.layout.timers.find(
      ({ fact }) =>
        fact.overflow.vector === vector || fact.channels.some((channel) => channel.interrupt.vector === vector),
    ) ?? null
  );
}

function mayBeOn(run: Run, state: State, code: FunctionCode): boolean {
  const timer = timerOf(run, code)!;
  const { fact } = timer;
  const name =
    fact.overflow.vector === code.interrupt
      ? fact.overflow.mask
      : fact.channels.find((channel) => channel.interrupt.vector === code.interrupt)!.interrupt.mask;
  const address = run.layout.address(fact.interruptMask);
  const bit = run.layout.registers[address]?.bits.find((candidate) => candidate.name === name)?.position;
  return bit === undefined || (mask(run, state, timer).zeros & (1 << bit)) === 0;
}

function shortest(states: readonly State[], timer: TimerSlot): number {
  return Math.min(
    ...states.map(({ machine }) => {
      // In the dual-slope modes a compare value is met twice a period; one that is moved may be met once more.
      const steady =
        timer.channels.every((channel) => number.isSingle(machine.workingOf(channel.index))) &&
        (modesOf(machine, timer)?.every((mode) => !mode.family.startsWith("phase")) ?? false);
      return shortestPeriod(machine, [timer]) / (steady ? 1 : 2);
    }),
  );
}

/** Cycles that interruptions add to `busy` cycles of computing, at most; Infinity where they leave it none. */
export function heldUp(interruptions: readonly Interruption[], busy: number): number {
  if (busy === Number.POSITIVE_INFINITY || interruptions.some(({ cycles }) => cycles === Number.POSITIVE_INFINITY))
    return Number.POSITIVE_INFINITY;
  let added = 0;
  for (let round = 0; round < 64; round++) {
    const next = interruptions.reduce(
      (sum, { cycles, every }) => sum + cycles * (1 + Math.floor((busy + added) / every)),
      0,
    );
    if (next <= added) return added;
    added = next;
  }
  return Number.POSITIVE_INFINITY;
}

/** The core holds interrupts off for no longer than this (digitalWrite, micros, analogWrite: counted in their code). */
const MASKED_BY_CORE = 60;
/** The instruction under way, saving the place, jumping (section 7.7: four cycles; four more after sleep). */
const ENTRY = 10;

/** How late a routine may start, the others coming first; `masked`: the longest for which the sketch holds interrupts off. */
export function lateness(interruptions: readonly Interruption[], masked: number): number {
  const held = Math.max(MASKED_BY_CORE, masked);
  return held + ENTRY + heldUp(interruptions, held);
}
