/** Other settings of a timer altogether: every mode and prescaler with the TOP that brings it nearest to a frequency. */
import type { Chip, ModeFact, TimerFact } from "../chip.js";
import { toNumber } from "../fraction.js";
import type { Bounds } from "../signal.js";
import type { TimerSnapshot } from "../timer-snapshot.js";
import { controlStates, modeName, topName } from "../waveforms/control-states.js";
import { pinWaveforms } from "../waveforms/pin-waveforms.js";
import { fieldReplacements, onlyValue } from "./control-slips.js";
import { topRegister } from "./count-slips.js";
import { replaceRegisters } from "./replaced-registers.js";
import type { Slip, SlipGround } from "./slip.js";

/** Another value of TOP that no small slip leads to. */
export const OTHER_TOP = 4;

/** So many values of TOP on each side of the nearest one. */
const AROUND = 1;

/** The nominal frequencies that would be read as this one, and the likeliest of them. */
export interface WantedRate extends Bounds<number> {
  readonly middle: number;
}

/** Another TOP in the register that gives it now, the nearest few. */
export function otherTops(ground: SlipGround, chip: Chip, port: string, clockHz: number, wanted: WantedRate): Slip[] {
  const register = topRegister(ground);
  const now = register === null ? undefined : onlyValue(ground.snapshot.registers[register]);
  const [state] = controlStates(ground.timer, ground.snapshot) ?? [];
  if (register === null || state === undefined) return [];
  const { near, least, most } = nearestTops(ground, state.mode, ground.snapshot, chip, port, clockHz, wanted);
  const many = most - least > 2 * AROUND;
  return near.map((top) => ({
    replacements: [{ name: register, value: top }],
    words: `${register} = ${top}${now === undefined ? "" : ` in place of ${now}`}${many ? ` (${least} to ${most} fit)` : ""}`,
    size: OTHER_TOP,
  }));
}

/** Every mode and prescaler of the timer that can give the frequency; usual settings are the smaller. `fixed` registers stay. */
export function wholeSettings(
  ground: SlipGround,
  chip: Chip,
  port: string,
  clockHz: number,
  wanted: WantedRate,
  fixed: ReadonlySet<string>,
): Slip[] {
  const { timer, snapshot } = ground;
  const found: Slip[] = [];
  for (const mode of timer.modes) {
    if (mode.family === "reserved") continue;
    timer.clocks.forEach((clock, select) => {
      if (clock.kind !== "divided") return;
      const replacements = [
        ...fieldReplacements(timer.modeField, mode.select),
        ...fieldReplacements(timer.clockField, select),
      ];
      const set = replaceRegisters(chip, timer, snapshot, replacements);
      if ("problem" in set) return;
      const words = `${modeName(timer, mode)}, prescaler ${clock.by}`;
      if (mode.top.kind === "fixed") {
        found.push({ replacements, words, size: usualness(mode, ground) });
        return;
      }
      const register = topName(timer, mode);
      const present = onlyValue(snapshot.registers[register]);
      const tops =
        fixed.has(register) && present !== undefined
          ? [present]
          : nearestTops(ground, mode, set.snapshot, chip, port, clockHz, wanted).near;
      for (const top of tops) {
        // More counts are more steps: what a person would choose among equals.
        const size = usualness(mode, ground) + 0.5 - Math.min(0.4, Math.log2(Math.max(2, top)) / 40);
        found.push({
          replacements: [...replacements, { name: register, value: top }],
          words: `${words}, ${register} = ${top}`,
          size,
        });
      }
    });
  }
  return found;
}

function usualness(mode: ModeFact, { timer, unit }: SlipGround): number {
  if (mode.family === "normal" || mode.family === "ctc") return 4;
  if (mode.top.kind === "fixed") return mode.top.value === 0xff ? 2 : 2.5;
  return mode.top.kind === "compareA" && timer.channels[0]?.unit === unit ? 4 : 2.5;
}

interface Tops {
  /** The nearest first. */
  readonly near: readonly number[];
  /** Everything from here to there is inside the reading. */
  readonly least: number;
  readonly most: number;
}

const NO_TOPS: Tops = { near: [], least: 1, most: 0 };

/** TOP goes as the period does; tried out from one state of the mode, whose pulse says how. */
function nearestTops(
  { timer }: SlipGround,
  mode: ModeFact,
  snapshot: TimerSnapshot,
  chip: Chip,
  port: string,
  clockHz: number,
  wanted: WantedRate,
): Tops {
  const register = topName(timer, mode);
  const tried = 2 ** (timer.bits - 2);
  const set = replaceRegisters(chip, timer, connected(timer, snapshot, port, tried), [
    { name: register, value: tried },
  ]);
  if ("problem" in set) return NO_TOPS;
  const pulse = pinWaveforms(chip, port, [set.snapshot], clockHz).find(({ frequencyHz }) => frequencyHz !== null);
  if (pulse === undefined || pulse.frequencyHz === null) return NO_TOPS;
  const extra = isDualSlope(mode) ? 0 : 1;
  const counts = toNumber(pulse.frequencyHz.min) * (tried + extra);
  const ideal = counts / wanted.middle - extra;
  const least = Math.max(1, Math.ceil(counts / wanted.max - extra));
  const most = Math.min(2 ** timer.bits - 1, Math.floor(counts / wanted.min - extra));
  if (least > most) return NO_TOPS;
  const middle = Math.min(most, Math.max(least, Math.round(ideal)));
  const near = [middle];
  // Where the reading leaves many open, one stands for all.
  if (most - least > 2 * AROUND) return { near, least, most };
  for (let away = 1; away <= AROUND; away++)
    for (const top of [middle - away, middle + away]) if (top >= least && top <= most) near.push(top);
  return { near, least, most };
}

function isDualSlope(mode: ModeFact): boolean {
  return mode.family === "phase correct" || mode.family === "phase and frequency correct";
}

/** The pin's own compare value below TOP, so that there is a pulse to look at. */
function connected(timer: TimerFact, snapshot: TimerSnapshot, port: string, top: number): TimerSnapshot {
  const half = Math.floor(top / 2);
  const value = { min: half, max: half, zeros: 0, ones: half, values: [half] };
  const units = new Set(timer.channels.filter((channel) => channel.port === port).map(({ unit }) => unit));
  return {
    ...snapshot,
    channels: snapshot.channels.map((channel) =>
      units.has(channel.unit)
        ? { ...channel, alternatives: channel.alternatives.map((each) => ({ ...each, compare: value })) }
        : channel,
    ),
  };
}
