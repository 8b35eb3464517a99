/** Fixes that bring a pin to a wanted frequency: another TOP, or another prescaler. */
import type { TimerFact } from "../../shared-model/chip.js";
import { single } from "../../shared-model/register-value.js";
import type { Analysis, PinHistory, PinSignal, RegisterWrite } from "../analysis.js";
import { shapeOf } from "../look/expression.js";
import { makerOf } from "../look/look.js";
import { bitsUnder, namingStyle } from "../look/naming.js";
import { fieldsOf } from "../look/register-fields.js";
import { showHz } from "../look/show.js";
import { modeOf } from "../look/timer-view.js";
import { nearestTop, otherPrescaler, stateOf } from "../look/want-causes.js";
import type { Fix } from "./finding.js";
import { changingFix, pinsOfTimer, textOf } from "./fix.js";

export interface WantedBounds {
  readonly hz: number;
  readonly min: number;
  readonly max: number;
}

/** The ways into the bounds that can be written as an edit; none where the registers are not set by plain lines. */
export function settingFixes(
  analysis: Analysis,
  pin: PinHistory,
  signal: PinSignal,
  wanted: WantedBounds,
): readonly Fix[] {
  const found = stateOf(analysis, pin, signal);
  if (found === null) return [];
  const { timer, state } = found;
  const near = nearestTop(analysis, pin, signal, wanted.hz);
  if (near !== null && near.hz >= wanted.min && near.hz <= wanted.max) {
    const write = makerOf(analysis, state.from, (candidate) => candidate.register === near.register);
    return write === undefined ? [] : topFix(analysis, timer, write, near.top, near.hz);
  }
  const mode = modeOf(timer, state.snapshot);
  const other =
    mode === undefined
      ? null
      : otherPrescaler(analysis, timer, mode, signal, (hz) => hz >= wanted.min && hz <= wanted.max);
  const clockRegister = timer.clockField.parts[0]?.register;
  const write = makerOf(analysis, state.from, (candidate) => candidate.register === clockRegister);
  return other === null || write === undefined ? [] : prescalerFix(analysis, timer, write, other.by, other.hz);
}

/** `R = 0xF0` → `R = 250`. */
export function topFix(
  analysis: Analysis,
  timer: TimerFact,
  write: RegisterWrite,
  top: number,
  hz: number,
): readonly Fix[] {
  const { expression } = write;
  if (write.operator !== "=" || expression === null || expression.nature !== "constant") return [];
  return [
    changingFix(
      `Write ${top}: ${showHz(hz)}`,
      `timer ${timer.number} counts to another TOP`,
      pinsOfTimer(analysis, timer.number),
      () => [{ span: expression.span, text: String(top) }],
    ),
  ];
}

/** `R = …` with the prescaler's bits replaced; `hz`: what it gives, where that is to be said. */
export function prescalerFix(
  analysis: Analysis,
  timer: TimerFact,
  write: RegisterWrite,
  by: number,
  hz: number | null,
): readonly Fix[] {
  const { chip } = analysis.target;
  const field = fieldsOf(chip, write.register).find((candidate) => candidate.kind === "clock");
  const select = timer.clocks.findIndex((clock) => clock.kind === "divided" && clock.by === by);
  if (field === undefined || select < 0 || write.expression === null || !["=", "|="].includes(write.operator))
    return [];
  return [
    changingFix(
      `Set prescaler ${by}${hz === null ? "" : `: ${showHz(hz)}`}`,
      `timer ${timer.number} gets another clock`,
      pinsOfTimer(analysis, timer.number),
      () => {
        const style = namingStyle(analysis);
        const now = single(write.after);
        if (setsAll(write) && now !== undefined) {
          const value = (now & ~field.mask) | (select << field.shift);
          return [
            { span: write.expression!.span, text: bitsUnder(chip, write.register, value).map(style.bit).join(" | ") },
          ];
        }
        const target = textOf(analysis, write.target);
        const mask = field.bits.map(style.bit).join(" | ");
        const bits = bitsUnder(chip, write.register, select << field.shift)
          .map(style.bit)
          .join(" | ");
        const rest = bitsUnder(chip, write.register, write.after.ones & ~write.before.ones & ~field.mask & 0xff).map(
          style.bit,
        );
        return [{ span: write.span, text: `${target} = (${target} & ~(${mask})) | ${[...rest, bits].join(" | ")}` }];
      },
    ),
  ];
}

/** `R = a | b`: whatever the register held before is gone. */
function setsAll(write: RegisterWrite): boolean {
  return write.expression !== null && shapeOf(write.register, write.operator, write.expression).kind === "set all";
}
