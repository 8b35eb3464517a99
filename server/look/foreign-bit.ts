/** Whether a bit's name belongs to another register, where its position means something else. */
import type { Chip } from "../../shared-model/chip.js";
import { homesOfBit } from "./register-fields.js";

/** False for names that the chip does not know, and for another timer's name at the same position with the same meaning. */
export function isForeignBit(chip: Chip, register: string, name: string): boolean {
  const homes = homesOfBit(chip, name);
  if (homes.length === 0 || homes.some((home) => home.register === register)) return false;
  const row = chip.registers.find((candidate) => candidate.name === register);
  if (row === undefined || row.bits.length === 0) return false;
  const here = row.bits.filter((bit) => bit.position === homes[0]!.position);
  return !here.some((bit) => meaning(bit.name) === meaning(name));
}

/** Bit names of the timers without the timer's number; a flag counts as its interrupt's mask bit. */
function meaning(name: string): string {
  const match = /^(WGM|CS|COM|FOC|OCIE|TOIE|ICIE|ICNC|ICES|OCF|TOV|ICF)(\d)(.*)$/.exec(name);
  if (match === null) return name;
  const alike: Readonly<Record<string, string>> = { OCF: "OCIE", TOV: "TOIE", ICF: "ICIE" };
  return `${alike[match[1]!] ?? match[1]}n${match[3]}`;
}
