/** Slips in the counts that registers hold: TOP and compare values off by one, one bit, in another number base, cut to a byte. */
import { controlStates, topName } from "../waveforms/control-states.js";
import { onlyValue } from "./control-slips.js";
import type { Slip, SlipGround } from "./slip.js";

/** Slips in the register that gives TOP; none where TOP is fixed or not known. */
export function topSlips(ground: SlipGround): readonly Slip[] {
  const register = topRegister(ground);
  return register === null ? [] : countSlips(ground, register);
}

/** Slips in the register that gives this pin's duty, where it is not TOP itself. */
export function compareSlips(ground: SlipGround): readonly Slip[] {
  const channel = ground.timer.channels.find(({ unit }) => unit === ground.unit);
  if (channel === undefined || channel.compare === topRegister(ground)) return [];
  const top = topValue(ground);
  const now = onlyValue(ground.snapshot.registers[channel.compare]);
  const complement: Slip[] =
    top === null || now === undefined || top < now
      ? []
      : [
          {
            replacements: [{ name: channel.compare, value: top - now }],
            words: `${channel.compare} = ${top - now} in place of ${now} (the complement, counted from TOP)`,
            size: 1.75,
          },
        ];
  return [...complement, ...countSlips(ground, channel.compare)];
}

/** The register that gives TOP in the state's one mode; null where TOP is fixed or the mode not known. */
export function topRegister({ timer, snapshot }: SlipGround): string | null {
  const modes = new Set((controlStates(timer, snapshot) ?? []).map(({ mode }) => mode));
  const [mode] = modes;
  return mode === undefined || modes.size > 1 || mode.top.kind === "fixed" ? null : topName(timer, mode);
}

function topValue(ground: SlipGround): number | null {
  const register = topRegister(ground);
  if (register !== null) return onlyValue(ground.snapshot.registers[register]) ?? null;
  const [state] = controlStates(ground.timer, ground.snapshot) ?? [];
  return state?.mode.top.kind === "fixed" ? state.mode.top.value : null;
}

function countSlips({ timer, snapshot }: SlipGround, register: string): readonly Slip[] {
  const now = onlyValue(snapshot.registers[register]);
  if (now === undefined) return [];
  const slips: Slip[] = [];
  const add = (value: number, words: string, size: number): void => {
    if (value !== now && Number.isInteger(value) && value >= 0 && value < 2 ** timer.bits)
      slips.push({
        replacements: [{ name: register, value }],
        words: `${register} = ${value} in place of ${now} (${words})`,
        size,
      });
  };
  add(now - 1, "off by one", 1.5);
  add(now + 1, "off by one", 1.5);
  const hexadecimal = Number.parseInt(`${now}`, 16);
  const cut = hexadecimal % 2 ** timer.bits;
  const lost = cut === hexadecimal ? "" : `, of which ${timer.bits} bits are kept`;
  add(cut, `0x${now} for ${now}, hexadecimal for decimal${lost}`, 1.6);
  const digits = now.toString(16);
  if (/^\d+$/.test(digits)) add(Number(digits), `${digits} for 0x${digits}, decimal for hexadecimal`, 1.6);
  if (/^[0-7]+$/.test(String(now)))
    add(Number.parseInt(String(now), 8), `0${now} for ${now}, a leading 0 is octal`, 1.8);
  for (let bit = 0; bit < timer.bits; bit++)
    add(now ^ (1 << bit), `one bit: bit ${bit} ${(now >> bit) & 1 ? "missing" : "set as well"}`, 2);
  if (timer.bits === 16 && now > 0xff) add(now & 0xff, "only its low byte", 1.9);
  add(now * 2, "twice as much", 2.2);
  if (now % 2 === 0) add(now / 2, "half as much", 2.2);
  add(now * 10, "a digit too many", 2.5);
  if (now % 10 === 0) add(now / 10, "a digit too few", 2.5);
  add(swapped(String(now)), "two digits swapped", 2.4);
  return slips;
}

/** The last two digits swapped, as they are when typed in haste. */
function swapped(digits: string): number {
  return digits.length < 2 ? Number.NaN : Number(digits.slice(0, -2) + digits.at(-1) + digits.at(-2));
}
