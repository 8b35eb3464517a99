/** The ATmega328P: the chip of uno, nano, pro mini and their like. */
import type { Chip } from "../chip.js";
import { megaX8 } from "./atmega-x8.js";

export const atmega328p: Chip = megaX8({
  id: "atmega328p",
  macro: "__AVR_ATmega328P__",
  ramBytes: 2048,
  flashBytes: 32768,
  eepromBytes: 1024,
  newerHeader: true,
  eepromHighBits: 2,
});
