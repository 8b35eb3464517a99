/**
 * When a timer calls its routines. Law: as long as nothing writes the registers it was read from, the routines become due
 * at exactly these cycles, period after period. Source: DS40002061 sections 15.7, 16.9, 18.7 (when flags are set), 16.11.
 */
import type { FunctionCode } from "../../program/ir.js";
import { interruptsEnabled } from "../core/interrupt-control.js";
import * as number from "../domain/number.js";
import { countsOn } from "../hardware/counting.js";
import type { TimerSlot } from "../hardware/layout.js";
import type { Machine } from "../hardware/machine.js";
import { clocksOf, modesOf, topOf } from "../hardware/modes.js";
import type { Run } from "../run.js";
import type { State } from "../state.js";

/** A routine that becomes due `at` cycles after a period's begin, which is the clock after TOP. */
export interface Due {
  readonly at: number;
  readonly code: FunctionCode;
}

export interface Schedule {
  readonly timer: TimerSlot;
  /** CPU cycles of a period. */
  readonly period: number;
  /** In order; what comes with the end of the period comes last. */
  readonly routines: readonly Due[];
}

interface Known {
  readonly version: number;
  readonly mask: number.AbstractInteger;
  readonly status: number.AbstractInteger;
  readonly schedule: Schedule | null;
}

/** The schedules of one timer, worked out again only where something has changed. */
export class Schedules {
  private last: Known | null = null;
  private readonly maskAddress: number;

  constructor(
    private readonly run: Run,
    readonly timer: TimerSlot,
  ) {
    this.maskAddress = run.layout.address(timer.fact.interruptMask);
  }

  /** Null where it is not known, or never the same. */
  of(state: State): Schedule | null {
    const { machine } = state;
    const version = machine.versionOf(this.timer.index);
    const mask = machine.raw(this.maskAddress);
    const status = machine.raw(machine.layout.sreg);
    const { last } = this;
    if (last !== null && last.version === version && last.mask === mask && last.status === status) return last.schedule;
    const schedule = scheduleOf(this.run, state, this.timer);
    this.last = { version, mask, status, schedule };
    return schedule;
  }
}

function scheduleOf(run: Run, state: State, timer: TimerSlot): Schedule | null {
  const { machine } = state;
  if (interruptsEnabled(state) !== true || !countsOn(machine, timer)) return null;
  const [clock, ...clocks] = clocksOf(machine, timer) ?? [];
  const [mode, ...modes] = modesOf(machine, timer) ?? [];
  if (clock?.kind !== "divided" || clocks.length > 0 || mode === undefined || modes.length > 0) return null;
  const top = topOf(machine, timer, mode);
  if (!number.isSingle(top) || mode.family === "reserved") return null;
  const dual = mode.family.startsWith("phase");
  if (dual && top.min === 0) return null;
  const counts = dual ? 2 * top.min : top.min + 1;
  const { fact } = timer;
  const highest = timer.wide ? 0xffff : 0xff;
  const found: Due[] = [];
  const take = (vector: string, mask: string, at: number | null): boolean => {
    const code = run.program.interrupts.find((candidate) => candidate.interrupt === vector);
    const on = enabled(run, machine, timer, mask);
    if (on === null) return false;
    // In the dual-slope modes only what comes at BOTTOM comes once a period at a moment of its own.
    if (on && code !== undefined && at !== null) found.push({ at: at * clock.by, code });
    return true;
  };
  for (const [index, channel] of fact.channels.entries()) {
    const compare = machine.workingOf(timer.channels[index]!.index);
    const { vector, mask } = channel.interrupt;
    if (enabled(run, machine, timer, mask) === true && (dual || !number.isSingle(compare))) return null;
    const at = compare.min > top.min ? null : compare.min === top.min ? counts : compare.min + 1;
    if (!take(vector, mask, at)) return null;
  }
  const overflows = mode.family !== "ctc" || top.min === highest;
  if (!take(fact.overflow.vector, fact.overflow.mask, overflows ? counts : null)) return null;
  if (fact.captureInterrupt !== undefined) {
    const { vector, mask } = fact.captureInterrupt;
    const fromTop = mode.top.kind === "capture";
    // Captures at the pin come when they like.
    if (!fromTop && enabled(run, machine, timer, mask) !== false && hasRoutine(run, vector)) return null;
    if (!take(vector, mask, fromTop ? counts : null)) return null;
  }
  const order = new Map(run.chip.vectors.map((vector) => [vector.name, vector.number] as const));
  const rank = (due: Due): number => order.get(due.code.interrupt ?? "") ?? 0;
  found.sort((a, b) => a.at - b.at || rank(a) - rank(b));
  return { timer, period: counts * clock.by, routines: found };
}

export function sameSchedule(a: Schedule, b: Schedule): boolean {
  return (
    a.period === b.period &&
    a.routines.length === b.routines.length &&
    a.routines.every((due, index) => due.at === b.routines[index]!.at && due.code === b.routines[index]!.code)
  );
}

function hasRoutine(run: Run, vector: string): boolean {
  return run.program.interrupts.some((candidate) => candidate.interrupt === vector);
}

/** Whether the bit of TIMSKn is set. */
function enabled(run: Run, machine: Machine, timer: TimerSlot, mask: string): boolean | null {
  const address = run.layout.address(timer.fact.interruptMask);
  const bit = run.layout.registers[address]?.bits.find((candidate) => candidate.name === mask)?.position;
  if (bit === undefined) return null;
  const { ones, zeros } = machine.raw(address);
  return (ones & (1 << bit)) !== 0 ? true : (zeros & (1 << bit)) !== 0 ? false : null;
}
