/**
 * With which inputs a sketch is run. Sketches that read no input run once; the others several times, so that more of
 * their branches are seen. Whether a sketch reads inputs is told from its words, comments aside.
 */
import type { ChipMap } from "./chip-map.js";
import type { InputEvent } from "./machine.js";
import type { AnalogSource } from "./peripherals.js";

export interface Scenario {
  readonly name: string;
  readonly analog: AnalogSource;
  readonly inputs: readonly InputEvent[];
}

/** What makes a sketch's course depend on something outside its text, or on time as the core counts it. */
const OUTSIDE =
  /\b(?:analogRead|digitalRead|attachInterrupt|PCINT\d_vect|INT\d_vect|PIN[A-L]|millis|micros|random|randomSeed|TCNT\d[LH]?|ADC|ADCW|ADCL|ADCH|TIFR\d|pulseIn|pulseInLong|EEPROM|eeprom_\w+|available|read|readString|parseInt|parseFloat|UDR0|GPIOR\d)\b/;

export function readsInputs(source: string): boolean {
  const code = source.replace(/\/\*[\s\S]*?\*\/|\/\/[^\n]*|"(?:\\.|[^"\\\n])*"/g, " ");
  // Setting a counter reads nothing.
  return OUTSIDE.test(code.replace(/\bTCNT\d[HL]?\s*=(?!=)/g, " "));
}

/** The scenarios of a sketch: one where nothing is read, else four. */
export function scenariosFor(source: string, map: ChipMap): Scenario[] {
  if (!readsInputs(source)) return [{ name: "no inputs", analog: () => 512, inputs: [] }];
  const pins = map.ports.flatMap(({ letter }) => [0, 1, 2, 3, 4, 5, 6, 7].map((bit) => `P${letter}${bit}`));
  const all = (level: 0 | 1): InputEvent[] => pins.map((port) => ({ cycle: 0, port, level }));
  const restless: InputEvent[] = [...all(0)];
  const next = numbers(20240229);
  for (let cycle = 100_000; cycle < 24_000_000; cycle += 150_000 + (next() % 400_000)) {
    const port = pins[next() % pins.length]!;
    restless.push({ cycle, port, level: (next() & 1) as 0 | 1 });
  }
  const analog = numbers(7);
  return [
    { name: "all low, 0", analog: () => 0, inputs: all(0) },
    { name: "all high, 1023", analog: () => 1023, inputs: all(1) },
    { name: "sweeping", analog: (channel, turn) => (turn * 93 + channel * 211) % 1024, inputs: [] },
    { name: "restless", analog: () => analog() % 1024, inputs: restless },
  ];
}

/** A small generator of numbers of our own: the same row on every machine. */
export function numbers(seed: number): () => number {
  let state = (seed ^ 0x9e3779b9) >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (Math.imul(state ^ (state >>> 15), 0x2c1b3c6d) >>> 8) & 0xffffff;
  };
}
