/** The ATmega168 of the older boards (`nano:cpu=atmega168`): timers as in the 168P, an older header. */
import type { Chip } from "../chip.js";
import { megaX8 } from "./atmega-x8.js";

export const atmega168: Chip = megaX8({
  id: "atmega168",
  macro: "__AVR_ATmega168__",
  ramBytes: 1024,
  flashBytes: 16384,
  eepromBytes: 512,
  newerHeader: false,
  eepromHighBits: 1,
});
