/** The ATmega2560: the chip of the mega. */
import type { Chip } from "../chip.js";
import { megaXx0 } from "./atmega-xx0.js";

export const atmega2560: Chip = megaXx0({
  id: "atmega2560",
  macro: "__AVR_ATmega2560__",
  flashBytes: 262144,
  bigFlash: true,
});
