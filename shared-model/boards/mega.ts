/** The mega: ATmega2560, or ATmega1280 on the first ones, 16 MHz. */
import type { Board } from "../chip.js";
import { clockTolerances } from "../clock-tolerance.js";
import { supplies } from "../supply.js";
import { megaPins } from "./pin-rows.js";

export const mega: Board = {
  id: "mega",
  name: "Arduino Mega or Mega 2560",
  macro: "ARDUINO_AVR_MEGA2560",
  variants: [
    {
      option: "atmega2560",
      chip: "atmega2560",
      fCpu: 16_000_000,
      clock: { hz: 16_000_000, ...clockTolerances.resonator },
      supply: supplies.five,
    },
    {
      option: "atmega1280",
      chip: "atmega1280",
      fCpu: 16_000_000,
      clock: { hz: 16_000_000, ...clockTolerances.resonator },
      supply: supplies.five,
      macro: "ARDUINO_AVR_MEGA",
    },
  ],
  ...megaPins,
  citation: { document: "packaged core arduino-core-avr 1.8.7", section: "boards.txt, mega; variants/mega" },
};
