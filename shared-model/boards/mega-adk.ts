/** The mega ADK: an ATmega2560 at 16 MHz. */
import type { Board } from "../chip.js";
import { clockTolerances } from "../clock-tolerance.js";
import { supplies } from "../supply.js";
import { megaPins } from "./pin-rows.js";

export const megaAdk: Board = {
  id: "megaADK",
  name: "Arduino Mega ADK",
  macro: "ARDUINO_AVR_ADK",
  variants: [
    {
      option: null,
      chip: "atmega2560",
      fCpu: 16_000_000,
      clock: { hz: 16_000_000, ...clockTolerances.resonator },
      supply: supplies.five,
    },
  ],
  ...megaPins,
  citation: { document: "packaged core arduino-core-avr 1.8.7", section: "boards.txt, megaADK; variants/mega" },
};
