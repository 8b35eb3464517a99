/** The ATmega168P: half the memory of the 328P, otherwise alike. */
import type { Chip } from "../chip.js";
import { megaX8 } from "./atmega-x8.js";

export const atmega168p: Chip = megaX8({
  id: "atmega168p",
  macro: "__AVR_ATmega168P__",
  ramBytes: 1024,
  flashBytes: 16384,
  eepromBytes: 512,
  newerHeader: true,
  eepromHighBits: 1,
});
