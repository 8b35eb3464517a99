/** The mini, 16 MHz. */
import type { Board } from "../chip.js";
import { clockTolerances } from "../clock-tolerance.js";
import { supplies } from "../supply.js";
import { standardPins } from "./pin-rows.js";

export const mini: Board = {
  id: "mini",
  name: "Arduino Mini",
  macro: "ARDUINO_AVR_MINI",
  variants: [
    {
      option: "atmega328",
      chip: "atmega328p",
      fCpu: 16_000_000,
      clock: { hz: 16_000_000, ...clockTolerances.resonator },
      supply: supplies.five,
    },
    {
      option: "atmega168",
      chip: "atmega168",
      fCpu: 16_000_000,
      clock: { hz: 16_000_000, ...clockTolerances.resonator },
      supply: supplies.five,
    },
  ],
  ...standardPins,
  citation: {
    document: "packaged core arduino-core-avr 1.8.7",
    section: "boards.txt, mini; variants/eightanaloginputs",
  },
};
