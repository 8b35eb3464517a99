/** The uno: one ATmega328P at 16 MHz. */
import type { Board } from "../chip.js";
import { clockTolerances } from "../clock-tolerance.js";
import { supplies } from "../supply.js";
import { standardPins } from "./pin-rows.js";

export const uno: Board = {
  id: "uno",
  name: "Arduino UNO",
  macro: "ARDUINO_AVR_UNO",
  variants: [
    {
      option: null,
      chip: "atmega328p",
      fCpu: 16_000_000,
      clock: { hz: 16_000_000, ...clockTolerances.resonator },
      supply: supplies.five,
    },
  ],
  ...standardPins,
  citation: { document: "packaged core arduino-core-avr 1.8.7", section: "boards.txt, uno; variants/standard" },
};
