/** Slips in the control registers: another prescaler, another mode, another connection of the output. */
import type { ClockSource, FieldFact, ModeFact, TimerFact } from "../chip.js";
import type { RegisterValue } from "../register-value.js";
import { controlStates, modeName } from "../waveforms/control-states.js";
import { maskedMembers } from "../waveforms/register-members.js";
import type { Replacement } from "./replaced-registers.js";
import type { Slip, SlipGround } from "./slip.js";

/** Every slip in mode, prescaler or both. None where the state itself is not known. */
export function controlSlips(ground: SlipGround): readonly Slip[] {
  const { timer, snapshot } = ground;
  const states = controlStates(timer, snapshot);
  const [state] = states ?? [];
  if (state === undefined || states?.length !== 1) return [];
  const clocks = clockSlips(ground, state.clock);
  const modes = modeSlips(timer, state.mode);
  const both = clocks.flatMap((clock) =>
    modes.map((mode) => ({
      replacements: [...mode.replacements, ...clock.replacements],
      words: `${mode.words}, and ${clock.words}`,
      size: mode.size + clock.size + 0.5,
    })),
  );
  return [...clocks, ...modes, ...both];
}

function clockSlips({ timer, others }: SlipGround, present: ClockSource): readonly Slip[] {
  const now = timer.clocks.indexOf(present);
  if (present.kind !== "divided" || now < 0) return [];
  const foreign = others.find(({ clocks }) => differentDivisor(clocks[now], present.by));
  const foreignBy = foreign?.clocks[now];
  return timer.clocks.flatMap((clock, select): Slip[] => {
    if (clock.kind !== "divided" || select === now) return [];
    const words = `prescaler ${clock.by} in place of ${present.by}`;
    const replacements = fieldReplacements(timer.clockField, select);
    if (foreign !== undefined && foreignBy?.kind === "divided" && foreignBy.by === clock.by) {
      const bits = inBits(now, timer.clockField.width);
      return [
        {
          replacements,
          words: `${words} (${timer.clockField.name}${timer.clockField.width - 1}..0 = ${bits} is ${clock.by} on timer ${foreign.number}, ${present.by} on timer ${timer.number})`,
          size: 1.5,
        },
      ];
    }
    const flipped = bitsBetween(timer.clockField, now, select);
    const distance = Math.abs(select - now);
    // Bits that are only added were ORed onto what was there.
    const ored = flipped.every(({ on }) => on);
    // One bit's name in place of another's.
    const exchanged = flipped.length === 2 && !ored && flipped.some(({ on }) => on);
    const size = flipped.length === 1 ? 1.5 : distance === 1 || ored ? 1.75 : exchanged ? 1.9 : 2 + distance * 0.15;
    return [{ replacements, words: `${words} (${changeWords(flipped)})`, size }];
  });
}

function differentDivisor(clock: ClockSource | undefined, by: number): boolean {
  return clock?.kind === "divided" && clock.by !== by;
}

function modeSlips(timer: TimerFact, present: ModeFact): readonly Slip[] {
  return timer.modes.flatMap((mode): Slip[] => {
    if (mode.select === present.select || mode.family === "reserved") return [];
    const flipped = bitsBetween(timer.modeField, present.select, mode.select);
    // The same TOP with the other slope is the mode next door, however many bits are between.
    const akin = mode.top.kind === present.top.kind || mode.family === present.family;
    const size = flipped.length === 1 ? (flipped[0]!.on ? 2 : 1.75) : (akin ? 2 : 2.4) + flipped.length * 0.3;
    const words = `${modeName(timer, mode)} in place of ${modeName(timer, present)} (${changeWords(flipped)})`;
    return [{ replacements: fieldReplacements(timer.modeField, mode.select), words, size }];
  });
}

const CONNECTIONS: readonly string[] = ["disconnected", "toggled", "not inverted", "inverted"];

/** Another value of the COM bits: inverted, toggled. Only where one connection is known. */
export function connectionSlips({ timer, snapshot, unit }: SlipGround): readonly Slip[] {
  const fact = timer.channels.find((channel) => channel.unit === unit);
  const alternatives = snapshot.channels.find((channel) => channel.unit === unit)?.alternatives ?? [];
  const coms = [...new Set(alternatives.flatMap(({ com }) => maskedMembers(com, 3)))].filter((com) => com !== 0);
  const now = coms[0] ?? 0;
  if (fact === undefined || alternatives.length === 0 || coms.length > 1) return [];
  const { register, shift, name } = fact.com;
  return [1, 2, 3].flatMap((com): Slip[] =>
    com === now
      ? []
      : [
          {
            replacements: [{ name: register, value: com << shift, mask: 3 << shift }],
            words: `output ${CONNECTIONS[com]} in place of ${CONNECTIONS[now]} (${name}1..0 = ${inBits(com, 2)} for ${inBits(now, 2)})`,
            size: com + now === 5 ? 1.75 : 2.25,
          },
        ],
  );
}

/** What writes a value into a field, register by register. */
export function fieldReplacements(field: FieldFact, value: number): readonly Replacement[] {
  return field.parts.map(({ register, shift, width, at }) => {
    const mask = (2 ** width - 1) << shift;
    return { name: register, value: ((value >> at) << shift) & mask, mask };
  });
}

interface FlippedBit {
  readonly name: string;
  readonly on: boolean;
}

/** The bits that differ between two values of a field, by their names (`CS22`, `WGM20`). */
function bitsBetween(field: FieldFact, from: number, to: number): readonly FlippedBit[] {
  const found: FlippedBit[] = [];
  for (let bit = 0; bit < field.width; bit++) {
    if ((((from ^ to) >> bit) & 1) === 1) found.push({ name: `${field.name}${bit}`, on: ((to >> bit) & 1) === 1 });
  }
  return found;
}

/** `CS22 missing`, `CS22 set too`, `WGM20 set and WGM21 missing`. */
function changeWords(flipped: readonly FlippedBit[]): string {
  const [only] = flipped;
  if (flipped.length === 1 && only !== undefined) return only.on ? `${only.name} set as well` : `${only.name} missing`;
  const on = flipped.filter((bit) => bit.on).map(({ name }) => name);
  const off = flipped.filter((bit) => !bit.on).map(({ name }) => name);
  if (off.length === 0) return `${on.join(", ")} set as well`;
  return [
    ...(on.length > 0 ? [`${on.join(", ")} set`] : []),
    ...(off.length > 0 ? [`${off.join(", ")} clear`] : []),
  ].join(", ");
}

export function inBits(value: number, width: number): string {
  return value.toString(2).padStart(width, "0");
}

/** The one value of a register, undefined where there are several. */
export function onlyValue(value: RegisterValue | undefined): number | undefined {
  return value !== undefined && value.min === value.max ? value.min : undefined;
}
