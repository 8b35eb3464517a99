/** The chips carried, by id. A chip that is not here is refused by name, never guessed. */
import type { Chip } from "../chip.js";
import { atmega168 } from "./atmega168.js";
import { atmega168p } from "./atmega168p.js";
import { atmega328p } from "./atmega328p.js";
import { atmega1280 } from "./atmega1280.js";
import { atmega2560 } from "./atmega2560.js";

export const chips: readonly Chip[] = [atmega328p, atmega168p, atmega168, atmega2560, atmega1280];

/** Ids in the order in which they are shown. */
export const chipIds: readonly string[] = chips.map((chip) => chip.id);

/** The chip of that id, in any case (`ATmega328P`). */
export function findChip(id: string): Chip | undefined {
  const wanted = id.toLowerCase();
  return chips.find((chip) => chip.id === wanted);
}
