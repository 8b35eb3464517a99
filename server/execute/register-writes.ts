/** Every write to a register passes here: done with the hardware's manners, and put on record. Law: the machine afterwards describes the real chip. */
import { type Dependence, plain } from "./domain/dependence.js";
import * as number from "./domain/number.js";
import { type Loss, readWord, writeByte, writeWord } from "./hardware/access.js";
import { BYTE, WORD } from "./hardware/machine.js";
import { shortestPeriod } from "./hardware/modes.js";
import { exact } from "./inputs.js";
import { reachOf } from "./reach.js";
import type { Behalf, Run } from "./run.js";
import { busTakesPins } from "./serial-bus-pins.js";
import { countersNow } from "./spending.js";
import type { State } from "./state.js";
import type { Value } from "./value.js";

/** How a write stands in the text. Offsets into the expanded text. */
export interface RegisterWriteContext {
  readonly start: number;
  readonly end: number;
  readonly targetStart: number;
  readonly targetEnd: number;
  readonly operator: string;
  /** Index of the right side as written; -1 where there is none. */
  readonly written: number;
  /** The value before it was cut to the register's width, with its type. */
  readonly asked: {
    readonly value: number.AbstractInteger;
    readonly type: number.IntegerType;
    /** What the value depends on, where it is worked out of one reading. */
    readonly by?: Dependence | undefined;
  } | null;
  readonly preserves: number;
  /** Bits that the write turns over, whatever they were (`^=` with a known mask). */
  readonly flips: number;
}

/** A write that a function of the core makes on behalf of the call at `start … end`. */
export function coreContext(start: number, end: number): RegisterWriteContext {
  return {
    start,
    end,
    targetStart: start,
    targetEnd: end,
    operator: "core",
    written: -1,
    asked: null,
    preserves: 0,
    flips: 0,
  };
}

/** A function of the core's own sources writes: the sketch's call is what wrote. */
function onBehalf({ start, end, operator }: Behalf, { asked, preserves }: RegisterWriteContext): RegisterWriteContext {
  return { ...coreContext(start, end), operator, asked, preserves };
}

/**
 * The two bytes of a 16-bit access share TEMP with every other register of the timer: a routine that comes between them
 * and makes a 16-bit access of its own leaves its high byte there (DS40002061 section 16.3).
 */
function strayBetween(run: Run, state: State, address: number): number.AbstractInteger | null {
  const role = state.machine.layout.roles[address];
  if (run.inInterrupt || role === undefined || !("timer" in role) || role.timer === null) return null;
  run.noteAccess(address, role.timer.index);
  const stray = run.strayHigh.get(role.timer.index);
  return stray === undefined || !run.mayInterrupt(state) ? null : stray;
}

/** The value as it is, or with the high byte that the routine left. */
function eitherHigh(value: number.AbstractInteger, stray: number.AbstractInteger): number.AbstractInteger {
  const high = number.shl(number.convert(stray, BYTE, WORD), number.constant(8, WORD), WORD);
  return number.join(value, number.or(high, number.and(value, number.constant(0xff, WORD), WORD), WORD));
}

/** Whether the value's high byte is the routine's in any case, so that nothing is lost between the two. */
function hasHighByte(value: number.AbstractInteger, stray: number.AbstractInteger): boolean {
  return number.isSingle(stray) && value.min >> 8 === stray.min && value.max >> 8 === stray.min;
}

/**
 * A 16-bit read takes its high byte from TEMP too, but for compare registers, which are read directly (section 16.3):
 * what a routine left there in between is read in place of the real one.
 */
export function readWholeWord(run: Run, state: State, address: number): number.AbstractInteger {
  const value = readWord(state.machine, address);
  const role = state.machine.layout.roles[address];
  const stray = role?.kind === "capture" ? strayBetween(run, state, address) : null;
  return stray === null ? value : eitherHigh(value, stray);
}

function noteFromInterrupt(run: Run, state: State, address: number, word: boolean): void {
  const { machine } = state;
  const role = machine.layout.roles[address];
  const timer = role !== undefined && "timer" in role && role.timer?.wide === true ? role.timer.index : null;
  const leaves = timer !== null && (word || role?.kind === "high");
  run.noteInterruptWrite(address, timer, leaves ? machine.tempOf(timer) : null);
}

/** The running program writes something on which depends when a timer's routines come. */
function notePutOff(run: Run, state: State, address: number, before: number.AbstractInteger): void {
  const { layout } = state.machine;
  const role = layout.roles[address];
  if (role === undefined) return;
  if (
    role.kind === "clock divisor" ||
    (role.kind === "plain" && !/^(?:TIMSK|TIFR)/.test(layout.registers[address]?.name ?? ""))
  ) {
    for (const timer of layout.timers) run.putOff.timers.add(timer.index);
  }
  if (!("timer" in role) || role.timer === null) return;
  const { timer } = role;
  const changes = role.kind === "counter" || role.kind === "high" || !number.equal(before, state.machine.raw(address));
  if (!changes) return;
  if (role.kind === "compare") {
    run.putOff.channels.add(role.channel.index);
    if (role.channel === timer.channels[0]) run.putOff.timers.add(timer.index);
  } else run.putOff.timers.add(timer.index);
}

/** Whether the timer behind a register may have come round since it was started, in the cycles that were spent at most. */
function mayHaveTurned(state: State, address: number): boolean {
  const role = state.machine.layout.roles[address];
  if (role === undefined || !("timer" in role) || role.timer === null) return false;
  return state.cycles > shortestPeriod(state.machine, [role.timer]) / 2;
}

/** The PORT that a write to this register sets or, through PIN, turns over; −1 for all others. */
function outputOf(state: State, address: number): number {
  const role = state.machine.layout.roles[address];
  if (role?.kind === "pin") return role.output;
  return role?.kind === "port" && state.machine.layout.registers[address]?.name.startsWith("PORT") ? address : -1;
}

/** A one written to PIN turns the bit of PORT over (section 14.2.2). */
function togglesOf(given: number.AbstractInteger, context: RegisterWriteContext): RegisterWriteContext {
  return { ...context, flips: given.ones, preserves: given.zeros };
}

/** Puts on record that a pin was switched, and times it where pulses are timed. */
function noteSwitch(
  run: Run,
  state: State,
  output: number,
  before: number.AbstractInteger,
  context: RegisterWriteContext,
): void {
  if (context.start < 0) return;
  const routine = run.inInterrupt ? (run.where.interrupt ?? "") : null;
  const bits = 0xff & ~context.preserves;
  run.collector.bucket.noteSwitch(output, bits, before, state.machine.raw(output), routine, run.byDuty);
  if (!run.byDuty) run.timing?.wrote(run, state, output, context.flips, context.preserves);
}

/** Registers that stop timers or move their prescaler. */
function isGate(name: string | undefined): boolean {
  return name !== undefined && /^(?:PRR|GTCCR|ASSR)/.test(name);
}

/** The index of the timer that the register belongs to. */
function timerAt(state: State, address: number): number | null {
  const role = state.machine.layout.roles[address];
  return role !== undefined && "timer" in role ? (role.timer?.index ?? null) : null;
}

export function writeRegister(
  run: Run,
  state: State,
  address: number,
  word: boolean,
  value: Value,
  written: RegisterWriteContext,
): void {
  const { machine } = state;
  const context = run.behalf === null ? written : onBehalf(run.behalf, written);
  const type = word ? WORD : BYTE;
  const given = "zeros" in value ? plain(exact(state, value, type)) : number.top(type);
  const record = run.collector.beginWrite(run, state, address, word, context);
  const before = machine.raw(address);
  machine.at(state.cycles);
  const output = outputOf(state, address);
  const level = output < 0 ? null : machine.raw(output);
  const role = machine.layout.roles[address];
  const timer = role !== undefined && "timer" in role ? role.timer : null;
  const counters = timer === null ? null : countersNow(run, state);
  const course = timer === null ? null : (counters?.course(machine, timer) ?? null);
  const known = timer !== null && counters?.knows(timer) === true;
  const access = {
    mayHaveUpdated: !known && (state.timePassed || mayHaveTurned(state, address)),
    site: context.start,
    preserves: context.preserves,
    lost: (loss: Loss) => record?.lost(loss),
  };
  if (word) {
    const stray = strayBetween(run, state, address);
    if (stray !== null && !hasHighByte(given, stray)) record?.lost({ kind: "parted", high: stray });
    writeWord(machine, address, stray === null ? given : eitherHigh(given, stray), access);
  } else writeByte(machine, address, given, access);
  record?.end(given, () => ("zeros" in value ? reachOf(state, value, given, context.asked?.by ?? value.by) : null));
  const slot = timerAt(state, address);
  if (slot !== null) state.noteMade(slot);
  if (address === run.layout.busControl) busTakesPins(run, state);
  if (timer !== null && role !== undefined)
    counters?.wrote(machine, timer, role, word || !timer.wide ? given : number.top(WORD), course);
  else if (role?.kind === "clock divisor" || isGate(machine.layout.registers[address]?.name)) state.counters = null;
  if (role?.kind === "counter") run.collector.bucket.cut.noteWrite(state, role.timer, run.inInterrupt);
  if (run.collector.regime === "running" && !run.inInterrupt) notePutOff(run, state, address, before);
  if (level !== null) noteSwitch(run, state, output, level, output === address ? context : togglesOf(given, context));
  run.timing?.rewired(run, state, address);
  if (address === machine.layout.sreg) {
    run.collector.bucket.masksInterrupts = true;
    run.timing?.maskedAsStored(run, state);
  }
  if (run.inInterrupt) noteFromInterrupt(run, state, address, word);
  else {
    run.noteAccess(address, null);
    if (run.writtenByInterrupts.has(address)) {
      // Whether the routine comes before or after this write makes a difference: both are followed.
      state.due = true;
      state.waited = 0;
    }
  }
}
