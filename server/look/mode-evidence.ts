/** What the rest of the sketch says about the mode that was meant: which TOP register it fills, which interrupts it uses. */
import type { ModeFact, TimerFact } from "../../shared-model/chip.js";
import type { Analysis } from "../analysis.js";
import { interruptMayBeOn, lastingStates, sketchWrites } from "./look.js";
import { modesOf, topRegister } from "./timer-view.js";

/**
 * Whether the sketch works for `meant` rather than for `got`: it fills the register that is TOP in the one, in a way
 * that makes no sense in the other, and no lasting state of the timer ever takes its TOP there.
 */
export function sketchMeans(analysis: Analysis, timer: TimerFact, meant: ModeFact, got: ModeFact): boolean {
  const wanted = topRegister(timer, meant);
  if (wanted === null || wanted === topRegister(timer, got)) return false;
  const states = lastingStates(analysis, timer.number);
  const usedAsTop = states.some((state) =>
    modesOf(timer, state.snapshot).some((mode) => topRegister(timer, mode) === wanted),
  );
  if (usedAsTop) return false;
  const fills = sketchWrites(analysis).filter((write) => write.register === wanted || write.register === `${wanted}L`);
  if (fills.length === 0) return false;
  if (meant.top.kind === "capture") return fills.some((write) => write.register === wanted && write.asked.max > 0);
  const limit = got.top.kind === "fixed" ? got.top.value : null;
  if (limit !== null && fills.some((write) => write.register === wanted && write.asked.min > limit)) return true;
  const channel = timer.channels[0];
  return (
    channel !== undefined &&
    meant.family === "ctc" &&
    interruptMayBeOn(analysis, timer, channel.interrupt) &&
    !drivesPulses(analysis, timer)
  );
}

/** Whether some lasting state has an output of the timer that makes pulses of its duty. */
function drivesPulses(analysis: Analysis, timer: TimerFact): boolean {
  return lastingStates(analysis, timer.number).some((state) =>
    state.snapshot.channels.some((channel) =>
      channel.alternatives.some((way) => way.com.max >= 2 && way.output !== false),
    ),
  );
}

/** The timer's one mode in a snapshot with some WGM bits replaced. */
export function modeWith(timer: TimerFact, select: number): ModeFact | undefined {
  return timer.modes.find((mode) => mode.select === select);
}
