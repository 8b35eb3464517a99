/**
 * Counters that the program sets while they count: the period under way ends early or runs on. Law: a timer whose periods
 * may never come to their end undisturbed is named.
 */

import type { TimerSlot } from "./hardware/layout.js";
import { shortestPeriod } from "./hardware/modes.js";
import type { State } from "./state.js";

export class CutPeriods {
  /** By a routine: at any time, as often as it comes. */
  private readonly byRoutines = new Set<number>();
  /** By the main program in every turn: a bit each. What only some turns do is taken for now and then. */
  private byTurns = 0;
  /** The longest wait of the main program, in CPU cycles: a period that fits in comes to its end there. */
  private longestWait = 0;

  /** TCNTn is written. A counter that stands still is only put in place. */
  noteWrite(state: State, timer: TimerSlot, inInterrupt: boolean): void {
    if (shortestPeriod(state.machine, [timer]) === Number.POSITIVE_INFINITY) return;
    if (inInterrupt) this.byRoutines.add(timer.index);
    else state.countersSet |= 1 << timer.index;
  }

  /** A turn has come to its end in these states. */
  noteTurn(states: readonly State[]): void {
    this.byTurns |= states.reduce((common, state) => common & state.countersSet, states.length === 0 ? 0 : -1);
    for (const state of states) state.countersSet = 0;
  }

  noteWait(cycles: number): void {
    this.longestWait = Math.max(this.longestWait, cycles);
  }

  /** Whether periods of `cycles` of the timer may be cut again and again. */
  isCut(timer: number, cycles: number): boolean {
    return this.byRoutines.has(timer) || ((this.byTurns & (1 << timer)) !== 0 && cycles > this.longestWait);
  }

  add(other: CutPeriods): void {
    for (const timer of other.byRoutines) this.byRoutines.add(timer);
    this.byTurns |= other.byTurns;
    this.noteWait(other.longestWait);
  }
}
