/** An instrument on a simulated board: frequency and duty of a pin as a counter of so many digits shows them, the board's clock being off. */
import { chipOf, compileSketch } from "../compile.js";
import { type Observation, observe } from "../measure.js";

const CLOCK = 16_000_000;

export interface Measured {
  /** `PD3` */
  readonly port: string;
  readonly hz: number;
  /** High share. */
  readonly duty: number;
}

export async function onTheBench(path: string, text: string): Promise<Observation> {
  const image = await compileSketch({ path, text }, "nano");
  return observe(chipOf("nano"), image, { cycles: 3_200_000, maxCycles: 24_000_000, turns: 4 });
}

/** The pins that give one steady pulse and nothing else once the program runs. */
export function steadyPulses({ signals }: Observation): readonly Measured[] {
  const running = signals.filter(({ phase, recurs }) => phase === "running" && recurs);
  return [...new Set(running.map(({ port }) => port))].flatMap((port) => {
    const own = running.filter((signal) => signal.port === port);
    const [only] = own;
    if (own.length !== 1 || only?.kind !== "pulse" || !only.connected) return [];
    const { periodTicks, highTicks, clockDivisor } = only;
    if (periodTicks === null || highTicks === null || periodTicks.min !== periodTicks.max) return [];
    if (highTicks.min !== highTicks.max || clockDivisor !== 1) return [];
    return [{ port, hz: CLOCK / periodTicks.min, duty: highTicks.min / periodTicks.min }];
  });
}

/** What a counter of so many digits shows where the board's clock is off by `error`. */
export function shown(hz: number, error: number, digits: number): string {
  const real = hz * (1 + error);
  const unit = real >= 1e6 ? "MHz" : real >= 1e4 ? "kHz" : "Hz";
  const value = unit === "MHz" ? real / 1e6 : unit === "kHz" ? real / 1e3 : real;
  const whole = Math.max(1, Math.floor(Math.log10(value)) + 1);
  return `${value.toFixed(Math.max(0, digits - whole))} ${unit}`;
}
