/** The ATmega1280: the chip of the first mega. */
import type { Chip } from "../chip.js";
import { megaXx0 } from "./atmega-xx0.js";

export const atmega1280: Chip = megaXx0({
  id: "atmega1280",
  macro: "__AVR_ATmega1280__",
  flashBytes: 131072,
  bigFlash: false,
});
