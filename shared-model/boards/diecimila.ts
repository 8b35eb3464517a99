/** Duemilanove and Diecimila, 16 MHz. */
import type { Board } from "../chip.js";
import { clockTolerances } from "../clock-tolerance.js";
import { supplies } from "../supply.js";
import { standardPins } from "./pin-rows.js";

export const diecimila: Board = {
  id: "diecimila",
  name: "Arduino Duemilanove or Diecimila",
  macro: "ARDUINO_AVR_DUEMILANOVE",
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
  citation: { document: "packaged core arduino-core-avr 1.8.7", section: "boards.txt, diecimila; variants/standard" },
};
