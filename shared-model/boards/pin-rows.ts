/**
 * A short way to write a board's pin rows, and the two pin layouts of the boards carried. A layout is written once
 * for all boards that have it.
 *
 * Source: the packaged core's variants/standard, variants/eightanaloginputs and variants/mega (pins_arduino.h), as
 * measured in test/shared-model/facts/boards.json.
 */
import type { BoardPin } from "../chip.js";

/** Everything that a pins file says. */
export interface PinLayout {
  readonly pins: readonly BoardPin[];
  readonly constants: Readonly<Record<string, number>>;
  readonly interruptPins: readonly number[];
  readonly ledPin: number;
}

function pinRows(
  ports: readonly string[],
  units: Readonly<Record<number, string>>,
  analog: { readonly first: number; readonly count: number },
): BoardPin[] {
  return ports.map((port, number) => {
    const unit = units[number];
    const channel = number - analog.first;
    return {
      number,
      port,
      ...(unit === undefined ? {} : { analogWriteUnit: unit }),
      ...(channel >= 0 && channel < analog.count ? { analog: `A${channel}` } : {}),
    };
  });
}

function portRun(letter: string, from: number, to: number): string[] {
  const step = from <= to ? 1 : -1;
  return Array.from({ length: Math.abs(to - from) + 1 }, (_, index) => `P${letter}${from + step * index}`);
}

function analogConstants(first: number, count: number): Record<string, number> {
  return Object.fromEntries(Array.from({ length: count }, (_, index) => [`A${index}`, first + index]));
}

/** Digital 0 to 13, then A0 to A5. A6 and A7 of the small boards are converter inputs only and have no digital number in the tables. */
export const standardPins: PinLayout = {
  pins: pinRows(
    [...portRun("D", 0, 7), ...portRun("B", 0, 5), ...portRun("C", 0, 5)],
    { 3: "OC2B", 5: "OC0B", 6: "OC0A", 9: "OC1A", 10: "OC1B", 11: "OC2A" },
    { first: 14, count: 6 },
  ),
  constants: { SS: 10, MOSI: 11, MISO: 12, SCK: 13, SDA: 18, SCL: 19, ...analogConstants(14, 8), LED_BUILTIN: 13 },
  interruptPins: [2, 3],
  ledPin: 13,
};

/** Digital 0 to 53, then A0 to A15. */
export const megaPins: PinLayout = {
  pins: pinRows(
    [
      ...["PE0", "PE1", "PE4", "PE5", "PG5", "PE3", "PH3", "PH4", "PH5", "PH6"],
      ...["PB4", "PB5", "PB6", "PB7", "PJ1", "PJ0", "PH1", "PH0", "PD3", "PD2", "PD1", "PD0"],
      ...portRun("A", 0, 7),
      ...portRun("C", 7, 0),
      ...["PD7", "PG2", "PG1", "PG0"],
      ...portRun("L", 7, 0),
      ...portRun("B", 3, 0),
      ...portRun("F", 0, 7),
      ...portRun("K", 0, 7),
    ],
    {
      2: "OC3B",
      3: "OC3C",
      4: "OC0B",
      5: "OC3A",
      6: "OC4A",
      7: "OC4B",
      8: "OC4C",
      9: "OC2B",
      10: "OC2A",
      11: "OC1A",
      12: "OC1B",
      13: "OC0A",
      44: "OC5C",
      45: "OC5B",
      46: "OC5A",
    },
    { first: 54, count: 16 },
  ),
  constants: { SS: 53, MOSI: 51, MISO: 50, SCK: 52, SDA: 20, SCL: 21, ...analogConstants(54, 16), LED_BUILTIN: 13 },
  interruptPins: [2, 3, 21, 20, 19, 18],
  ledPin: 13,
};
