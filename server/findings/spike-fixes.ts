/** Ways to a true 0 % where fast PWM leaves a spike: the output disconnected at 0, or phase-correct PWM. */
import type { ChannelFact, TimerFact } from "../../shared-model/chip.js";
import { toNumber } from "../../shared-model/fraction.js";
import { single } from "../../shared-model/register-value.js";
import type { Analysis, RegisterWrite } from "../analysis.js";
import { indentAt, lineBreak } from "../edits/source-text.js";
import { plainStatement } from "../edits/statements.js";
import type { TextEdit } from "../edits/text-edit.js";
import { knownValue, partsOf, withoutCasts } from "../look/expression.js";
import { lastingStates, makerOf, pinOfUnit, sketchWrites, unitLabel } from "../look/look.js";
import { modeWith } from "../look/mode-evidence.js";
import { namingStyle } from "../look/naming.js";
import { pulseRate } from "../look/pulse-rate.js";
import { bitName } from "../look/register-fields.js";
import { showHz } from "../look/show.js";
import { clockOf, modeOf, prescalerOf, topBounds } from "../look/timer-view.js";
import { takenOut } from "./bit-edits.js";
import type { Fix } from "./finding.js";
import { changingFix, fileText, pinsOfTimer, textOf } from "./fix.js";

export function spikeFixes(
  analysis: Analysis,
  timer: TimerFact,
  channel: ChannelFact,
  write: RegisterWrite,
): readonly Fix[] {
  const pin = pinOfUnit(analysis, channel.unit);
  const apart = pin === undefined ? null : disconnected(analysis, channel, write);
  return [
    ...(apart === null || pin === undefined
      ? []
      : [
          changingFix(
            `Disconnect ${unitLabel(analysis, channel)} at 0`,
            "at 0 the pin is then low, as its port bit says",
            [pin.pin],
            () => apart,
          ),
        ]),
    ...phaseCorrect(analysis, timer),
  ];
}

/** `if (v == 0) disconnect; else { write; connect; }`, with the value worked out once. */
function disconnected(analysis: Analysis, channel: ChannelFact, write: RegisterWrite): readonly TextEdit[] | null {
  const { expression } = write;
  const text = fileText(analysis, write.span.path);
  const statement = plainStatement(text, write.span);
  // A connection that the sketch switches by itself is not for an edit to second-guess.
  const setters = sketchWrites(analysis).filter((other) => other.register === channel.com.register);
  if (statement === null || expression === null || write.operator !== "=" || setters.length !== 1) return null;
  const { bit } = namingStyle(analysis);
  const { path } = write.span;
  const connect = `${channel.com.register} |= ${bit(`${channel.com.name}1`)};`;
  const off = `${channel.com.register} &= ~${bit(`${channel.com.name}1`)};`;
  if (single(write.after) === 0) return [{ span: { path, ...statement }, text: off }];
  // Told of a value that is seen to be 0 in the condition only where the engine follows it: one reading, or a few values.
  if (write.reach === null && write.after.values === null) return null;
  const value = textOf(analysis, expression.span);
  const plain = /^[A-Za-z_]\w*$/.test(value) && withoutCasts(expression).kind === "name";
  const name = plain ? value : ["duty", "level", "dutyNow"].find((each) => !new RegExp(`\\b${each}\\b`).test(text));
  if (name === undefined || (plain && knownValue(expression) !== undefined)) return null;
  if (!plain && [...partsOf(expression)].some((part) => part.kind === "other")) return null;
  const break_ = `${lineBreak(text)}${indentAt(text, statement.start)}`;
  const type = channel.compare.length === 5 && analysis.target.chip.wide.some((pair) => pair.name === channel.compare);
  const declared = plain ? "" : `const ${type ? "uint16_t" : "uint8_t"} ${name} = ${value};${break_}`;
  const target = textOf(analysis, write.target);
  return [
    {
      span: { path, ...statement },
      text: `${declared}if (${name} == 0) {${break_}  ${off}${break_}} else {${break_}  ${target} = ${name};${break_}  ${connect}${break_}}`,
    },
  ];
}

/** The fast mode's twin with two slopes: the same TOP, half the frequency. */
function phaseCorrect(analysis: Analysis, timer: TimerFact): readonly Fix[] {
  const states = lastingStates(analysis, timer.number);
  const state = states[0];
  const mode = state === undefined ? undefined : modeOf(timer, state.snapshot);
  if (state === undefined || mode === undefined || states.length !== 1) return [];
  const twin = timer.modes.find(
    (each) =>
      each.family === "phase correct" &&
      each.top.kind === mode.top.kind &&
      JSON.stringify(each.top) === JSON.stringify(mode.top) &&
      (each.select & ~mode.select) === 0,
  );
  const gone = twin === undefined ? 0 : mode.select & ~twin.select;
  const part = timer.modeField.parts.find((each) => (((1 << each.width) - 1) << each.at) & gone);
  if (twin === undefined || part === undefined || modeWith(timer, mode.select & ~gone) !== twin) return [];
  const name = bitName(analysis.target.chip, part.register, part.shift + Math.log2(gone) - part.at);
  const write = makerOf(analysis, state.from, (candidate) => candidate.register === part.register);
  const edits = name === undefined || write === undefined ? null : takenOut(analysis, write, [name]);
  const prescaler = prescalerOf(clockOf(timer, state.snapshot));
  const top = topBounds(timer, mode, state.snapshot);
  if (edits === null || prescaler === null || top === null) return [];
  const rate = pulseRate(analysis.target.clockHz / (state.snapshot.clockDivisor ?? 1), prescaler, twin, top.min);
  if (rate === null || !Number.isFinite(toNumber(rate))) return [];
  return [
    changingFix(
      `Take phase-correct PWM: ${showHz(rate)}`,
      "it reaches 0 %, at half the frequency",
      pinsOfTimer(analysis, timer.number),
      () => edits,
    ),
  ];
}
