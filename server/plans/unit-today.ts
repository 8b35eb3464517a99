/** How a timer counts and how its units are connected today, over all states that last. */
import type { ChannelFact, TimerFact } from "../../shared-model/chip.js";
import type { Analysis } from "../analysis.js";
import { lastingStates } from "../look/look.js";
import { modeOf } from "../look/timer-view.js";
import { type Counting, countingOf } from "./rescale.js";

/** How the timer counts in all lasting states; null where that differs. */
export function countingToday(analysis: Analysis, timer: TimerFact): Counting | null {
  const modes = new Set(
    lastingStates(analysis, timer.number).map((state) => {
      const mode = modeOf(timer, state.snapshot);
      return mode === undefined ? null : countingOf(mode);
    }),
  );
  return modes.size === 1 ? [...modes][0]! : null;
}

/** How the unit is connected in all lasting states: its COM field, 0 where it is not, null where that differs or is not known. */
export function connection(analysis: Analysis, timer: TimerFact, channel: ChannelFact): 0 | 1 | 2 | 3 | null {
  const found = new Set<number | null>();
  for (const state of lastingStates(analysis, timer.number)) {
    const snapshot = state.snapshot.channels.find((candidate) => candidate.unit === channel.unit);
    for (const { com } of snapshot?.alternatives ?? []) found.add(com.min === com.max ? com.min : null);
  }
  const only = found.size === 1 ? [...found][0]! : found.size === 0 ? 0 : null;
  return only as 0 | 1 | 2 | 3 | null;
}
