/** Ways to make a value fit that is too wide for its register: the same period with a larger prescaler, or the largest value. */
import { toNumber } from "../../shared-model/fraction.js";
import { single } from "../../shared-model/register-value.js";
import type { Analysis, RegisterWrite } from "../analysis.js";
import { lastingStates, makerOf } from "../look/look.js";
import { pulseRate } from "../look/pulse-rate.js";
import { registerBits } from "../look/register-width.js";
import { showHz } from "../look/show.js";
import { clockOf, modeOf, prescalerOf, topRegister } from "../look/timer-view.js";
import type { Fix } from "./finding.js";
import { changingFix, pinsOfTimer } from "./fix.js";
import { prescalerFix } from "./setting-fixes.js";

export function narrowFixes(analysis: Analysis, write: RegisterWrite): readonly Fix[] {
  const asked = single(write.asked);
  const timer = analysis.target.chip.timers.find((candidate) => candidate.number === write.timer);
  const { expression } = write;
  if (asked === undefined || timer === undefined || expression === null || write.operator !== "=") return [];
  const largest = 2 ** registerBits(analysis.target.chip, write.register) - 1;
  const pins = pinsOfTimer(analysis, timer.number);
  const states = lastingStates(analysis, timer.number);
  const state = states[0];
  const mode = state === undefined ? undefined : modeOf(timer, state.snapshot);
  const isTop = mode !== undefined && topRegister(timer, mode) === write.register;
  const clamp = changingFix(`Write ${largest}, the largest`, "nothing is cut off", pins, () => [
    { span: expression.span, text: String(largest) },
  ]);
  const prescaler = state === undefined ? null : prescalerOf(clockOf(timer, state.snapshot));
  if (!isTop || state === undefined || mode === undefined || prescaler === null || states.length !== 1)
    return timer.channels.some((channel) => channel.compare === write.register) ? [clamp] : [];
  // Fast PWM and CTC count TOP + 1 clocks, the dual-slope modes 2 · TOP: DS40002061 sections 15.7.2 to 15.7.4.
  const extra = mode.family === "fast" || mode.family === "ctc" ? 1 : 0;
  const clock = makerOf(analysis, state.from, (each) => each.register === timer.clockField.parts[0]?.register);
  const fixes: Fix[] = [];
  for (const source of timer.clocks) {
    if (source.kind !== "divided" || clock === undefined) continue;
    const top = (prescaler * (asked + extra)) / source.by - extra;
    if (!Number.isInteger(top) || top > largest || top < 1) continue;
    const rate = pulseRate(analysis.target.clockHz, source.by, mode, top);
    const hz = rate === null ? null : toNumber(rate);
    const [slower] = prescalerFix(analysis, timer, clock, source.by, hz);
    if (slower === undefined) continue;
    fixes.push(
      changingFix(
        `Write ${top} with prescaler ${source.by}${hz === null ? "" : `: ${showHz(hz)}`}`,
        "the period is then the one that was meant",
        pins,
        () => [{ span: expression.span, text: String(top) }, ...slower.edit()],
      ),
    );
    break;
  }
  return [...fixes, clamp];
}
