/** Settled points: where time passes, buffered values arrive, states are put on record and interrupt routines are due. Law: a state that stands long enough to show on a pin is on record. */

import { toneMayEnd } from "./core/tone.js";
import { takeOverBuffers } from "./hardware/buffers.js";
import { shortestPeriod } from "./hardware/modes.js";
import { type Spell, UNBOUNDED } from "./pulses/waits.js";
import { runForever } from "./regimes.js";
import type { Run } from "./run.js";
import { countersNow, spendWait } from "./spending.js";
import type { State } from "./state.js";

/** Time passes for this state at `place` (offset into the expanded text), at least `cycles` of the CPU's clock; `spell`: how long, where it is known. */
export function passTime(run: Run, state: State, place: number, cycles = 0, spell: Spell = UNBOUNDED): void {
  spendWait(run, state, spell);
  run.collector.bucket.cut.noteWait(cycles);
  takeOverBuffers(state.machine, cycles, true, countersNow(run, state));
  if (state.core.tonePin !== -1 && state.core.toneEnds) toneMayEnd(run, state, place);
  run.collector.settle(state, place);
  state.timePassed = true;
  state.cycles = 0;
  state.machine.startCount();
  state.waited = cycles;
  state.due = true;
}

/** The state may stand here for as long as it likes, or be left at once: a loop that may go round for some time. */
export function mayStand(run: Run, state: State, place: number): void {
  state.counters = null;
  takeOverBuffers(state.machine, 0, false);
  run.collector.settle(state, place);
  state.timePassed = true;
  state.waited = 0;
}

/** A timer without a clock has no period: its state stands where nothing is written for a millisecond. */
const STOPPED = 16_000;

/** A loop that is not over within one period of a timer leaves that timer's state standing for a while. */
export function mayHaveStood(run: Run, state: State, place: number): void {
  const { machine, cycles } = state;
  if (cycles <= Math.min(STOPPED, shortestPeriod(machine))) return;
  const standing = machine.layout.timers.filter((timer) => {
    const period = shortestPeriod(machine, [timer]);
    return cycles - machine.changedAt(timer.index) > (period === Number.POSITIVE_INFINITY ? STOPPED : period);
  });
  // A timer that is written again and again leaves alone the pins that it is not connected to.
  const restless = machine.layout.timers.filter((timer) => !standing.includes(timer));
  if (cycles > STOPPED && restless.length > 0) run.collector.bucket.rests.settle(state, restless);
  if (standing.length === 0) return;
  takeOverBuffers(machine, 0, false, countersNow(run, state));
  run.collector.settle(state, place, standing);
  state.timePassed = true;
  state.waited = 0;
}

/** The path never goes on from here: its state is one that runs for ever. */
export function standForEver(run: Run, state: State, place: number): void {
  passTime(run, state, place);
  runForever(run, [state.fork()], place, (turn) => turn);
  state.ended = true;
}
