/** Pro and pro mini: 5 V at 16 MHz or 3.3 V at 8 MHz. */
import type { Board } from "../chip.js";
import { clockTolerances } from "../clock-tolerance.js";
import { supplies } from "../supply.js";
import { standardPins } from "./pin-rows.js";

export const pro: Board = {
  id: "pro",
  name: "Arduino Pro or Pro Mini",
  macro: "ARDUINO_AVR_PRO",
  variants: [
    {
      option: "16MHzatmega328",
      chip: "atmega328p",
      fCpu: 16_000_000,
      clock: { hz: 16_000_000, ...clockTolerances.resonator },
      supply: supplies.proFive,
    },
    {
      option: "8MHzatmega328",
      chip: "atmega328p",
      fCpu: 8_000_000,
      clock: { hz: 8_000_000, ...clockTolerances.resonator },
      supply: supplies.proThree,
    },
    {
      option: "16MHzatmega168",
      chip: "atmega168",
      fCpu: 16_000_000,
      clock: { hz: 16_000_000, ...clockTolerances.resonator },
      supply: supplies.proFive,
    },
    {
      option: "8MHzatmega168",
      chip: "atmega168",
      fCpu: 8_000_000,
      clock: { hz: 8_000_000, ...clockTolerances.resonator },
      supply: supplies.proThree,
    },
  ],
  ...standardPins,
  citation: {
    document: "packaged core arduino-core-avr 1.8.7",
    section: "boards.txt, pro; variants/eightanaloginputs",
  },
};
