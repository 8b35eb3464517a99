/**
 * Bench readings against boards that are simulated: with a clock that is off, and with a sketch on them that is not quite the one
 * at hand. The number of slips tried is 60; more by READINGS=500, all by READINGS=all.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Analysis, PinHistory } from "../../../server/analysis.js";
import { benchClock } from "../../../server/look/bench-clock.js";
import { fittedReadings } from "../../../server/readings/fitted-reading.js";
import { single } from "../../../shared-model/register-value.js";
import { analysedText } from "../../runner/analysed-sketch.js";
import { CompileError } from "../compile.js";
import type { Observation } from "../measure.js";
import { type Measured, onTheBench, shown, steadyPulses } from "./bench.js";
import { slippedFrom } from "./slipped.js";

const FOLDER = join(__dirname, "../sketches");
const ASKED = process.env["READINGS"] ?? "60";
const MOST = ASKED === "all" ? Number.POSITIVE_INFINITY : Number(ASKED);

interface Sketch {
  readonly name: string;
  readonly text: string;
}

const sketches: readonly Sketch[] = readdirSync(FOLDER)
  .filter((file) => file.endsWith(".ino"))
  .map((name) => ({ name, text: readFileSync(join(FOLDER, name), "utf8") }))
  .filter(({ text }) => /TCCR\d/.test(text) && !/for pulsewright|analogRead|digitalRead|random|Serial/.test(text));

/** Every so many of a list, so that a few stand for all. */
function spreadOut<T>(list: readonly T[], most: number): readonly T[] {
  const step = Math.max(1, list.length / most);
  return list.filter((_, index) => Math.floor(index / step) !== Math.floor((index - 1) / step));
}

describe("a board whose clock is off", () => {
  it("gives readings that fit, and an estimate that holds the error", { timeout: 600_000 }, async () => {
    let several = 0;
    let readings = 0;
    for (const [index, { name, text }] of spreadOut(sketches, 40).entries()) {
      const error = [0.0031, -0.0043, 0.0008, -0.0001, 0.0049][index % 5]!;
      const pulses = steadyPulses(await onTheBench(join(FOLDER, name), text));
      const lines = pulses.map(
        ({ port, hz }, pin) => `// bench reads ${port}: ${shown(hz, error, 4 + ((index + pin) % 4))}\n`,
      );
      const { analysis } = await analysedText(`${lines.join("")}${text}`, name);
      const fitted = fittedReadings(analysis);
      expect(fitted.map(({ fits, because }) => `${name} ${fits === "no" ? because : "fits"}`)).toEqual(
        lines.map(() => `${name} fits`),
      );
      for (const { clockError } of fitted) {
        if (clockError === null) continue;
        readings++;
        expect(clockError.min).toBeLessThanOrEqual(error + 1e-7);
        expect(clockError.max).toBeGreaterThanOrEqual(error - 1e-7);
      }
      const { spread, estimate } = benchClock(analysis);
      if (estimate.error !== null) several++;
      expect(spread.min).toBeLessThanOrEqual(error + 1e-7);
      expect(spread.max).toBeGreaterThanOrEqual(error - 1e-7);
    }
    expect(readings).toBeGreaterThan(20);
    expect(several).toBeGreaterThan(5);
  });
});

const COUNT = /\b(OCR\d[AB]|ICR\d)\s*=\s*(\d+)\s*;/g;

describe("a register held at another value", () => {
  it("gives the reading that the sketch with that value gives", { timeout: 600_000 }, async () => {
    let fitted = 0;
    let moved = 0;
    const single = sketches.filter(({ text }) => [...text.matchAll(COUNT)].length > 0);
    for (const { name, text } of spreadOut(single, 25)) {
      for (const { 0: whole, 1: register = "", 2: value = "", index } of text.matchAll(COUNT)) {
        // Written once: its last value is this one.
        if (text.split(register).length !== 2) continue;
        const held = Math.max(2, Math.floor(Number(value) * 0.8));
        const changed = `${text.slice(0, index)}${register} = ${held};${text.slice(index + whole.length)}`;
        const observation = await onTheBench(join(FOLDER, name), changed);
        // A value that was cut or lost on its way is not held.
        if (!observation.final.some(({ registers }) => registers[register] === held)) continue;
        const lines = steadyPulses(observation).map(({ port, hz, duty }) => {
          const shares = `duty ${(duty * 100).toFixed(1)} %`;
          return `// bench reads ${port} with ${register} = ${held}: ${shown(hz, 0.002, 5)}, ${shares}\n`;
        });
        const { analysis } = await analysedText(`${lines.join("")}${text}`, name);
        for (const { fits, because, reading } of fittedReadings(analysis)) {
          // A register of another timer is said to be of no use; every other reading fits.
          if (fits === "unknown" && /does not belong to timer/.test(because)) continue;
          expect(`${name} ${reading.pin} ${reading.text} ${fits === "yes" ? "fits" : because}`).toBe(
            `${name} ${reading.pin} ${reading.text} fits`,
          );
          fitted++;
          const own = analysis.pins.find(({ port }) => port === reading.pin);
          const before = own === undefined ? null : onlyPulse(own);
          if (before !== null && Math.abs(reading.frequency!.value / before - 1) > 0.01) moved++;
        }
      }
    }
    console.log(JSON.stringify({ fitted, moved }));
    expect(fitted).toBeGreaterThan(12);
    expect(moved).toBeGreaterThan(4);
  });
});

interface Tried {
  readonly what: string;
  readonly kind: string;
  /** 0: not among the explanations. */
  readonly rank: number;
  readonly first: string;
}

describe("a board with a slipped sketch on it", () => {
  it("has its slip among the explanations of the right sketch's reading", { timeout: 3_600_000 }, async () => {
    const all = sketches.flatMap((sketch) => slippedFrom(sketch.text).map((slipped) => ({ sketch, slipped })));
    const tried: Tried[] = [];
    for (const { sketch, slipped } of spreadOut(all, MOST * 3)) {
      if (tried.length >= MOST) break;
      const found = await tryOne(sketch, slipped.text);
      if (found !== null) tried.push({ ...found, kind: slipped.kind });
    }
    const count = (least: number, most: number) => tried.filter(({ rank }) => rank >= least && rank <= most).length;
    const summary = {
      tried: tried.length,
      first: count(1, 1),
      second: count(2, 2),
      third: count(3, 3),
      later: count(4, 6),
      missing: count(0, 0),
    };
    const kinds = [...new Set(tried.map(({ kind }) => kind))].map((kind) => {
      const own = tried.filter((each) => each.kind === kind);
      return `${kind}: ${own.filter(({ rank }) => rank === 1).length} first, ${own.filter(({ rank }) => rank > 0).length} told of ${own.length}`;
    });
    console.log(JSON.stringify(summary), `\n${kinds.join("\n")}`);
    for (const { what, kind, rank, first } of tried)
      if (rank !== 1) console.log(`${rank} ${kind} | ${what} | ${first}`);
    expect(summary.tried).toBeGreaterThan(Math.min(MOST, 60) * 0.6);
    expect(summary.missing).toBeLessThanOrEqual(summary.tried * 0.1);
    expect(summary.first).toBeGreaterThan(summary.tried * 0.5);
  });
});

/** The slipped sketch on the bench, its reading in the right one; null where the slip moves no pulse that both have. */
async function tryOne({ name, text }: Sketch, slippedText: string): Promise<Omit<Tried, "kind"> | null> {
  let observation: Observation;
  try {
    observation = await onTheBench(join(FOLDER, name), slippedText);
  } catch (error) {
    if (error instanceof CompileError) return null;
    throw error;
  }
  const { analysis: right } = await analysedText(text, name);
  for (const pulse of steadyPulses(observation)) {
    const pin = right.pins.find(({ port }) => port === pulse.port);
    const predicted = pin === undefined ? null : onlyPulse(pin);
    if (pin === undefined || predicted === null || Math.abs(pulse.hz / predicted - 1) < 0.012) continue;
    const reading = shown(pulse.hz, 0.0006, 4);
    const { analysis } = await analysedText(`// bench reads ${pulse.port}: ${reading}\n${text}`, name);
    const [fitted] = fittedReadings(analysis);
    expect(`${name} ${fitted?.fits}`).toBe(`${name} no`);
    const explanations = fitted!.explanations;
    const at = explanations.findIndex(({ registers }) => isState(analysis, pin, registers, observation, pulse));
    return { what: `${name} ${pulse.port} ${reading}`, rank: at + 1, first: explanations[0]?.slip ?? "nothing" };
  }
  return null;
}

/** Nominal frequency where the pin has one running pulse, exactly known. */
function onlyPulse(pin: PinHistory): number | null {
  const running = pin.signals.filter(({ regime }) => regime === "running");
  const hz = running.find(({ frequencyHz }) => frequencyHz !== null)?.frequencyHz;
  if (running.length !== 1 || hz === undefined || hz === null || hz.min.num !== hz.max.num) return null;
  return hz.min.num / hz.min.den;
}

/** Whether the explained state is the one that the board was really in: mode, prescaler, and TOP where a register gives it. */
function isState(
  analysis: Analysis,
  pin: PinHistory,
  registers: Readonly<Record<string, unknown>>,
  observation: Observation,
  pulse: Measured,
): boolean {
  const timer = analysis.target.chip.timers.find(({ number }) => number === pin.timer);
  const final = observation.final.find((each) => each.timer === pin.timer)?.registers;
  const state = analysis.timers
    .find((history) => history.timer === pin.timer)
    ?.states.find(({ regime }) => regime === "running");
  if (timer === undefined || final === undefined || state === undefined || Object.keys(registers).length === 0)
    return false;
  const value = (name: string): number | undefined => {
    const changed = registers[name] as { values?: readonly number[] } | undefined;
    if (changed !== undefined) return changed.values?.length === 1 ? changed.values[0] : undefined;
    const own = state.snapshot.registers[name];
    return own === undefined ? undefined : single(own);
  };
  const bits = (name: string, mask: number): boolean => ((value(name) ?? -1) & mask) === ((final[name] ?? -2) & mask);
  const fields = [timer.modeField, timer.clockField].flatMap(({ parts }) => parts);
  if (!fields.every(({ register, shift, width }) => bits(register, (2 ** width - 1) << shift))) return false;
  const select = timer.modeField.parts.reduce(
    (all, { register, shift, width, at }) => all | ((((final[register] ?? 0) >> shift) & (2 ** width - 1)) << at),
    0,
  );
  const top = timer.modes[select]!.top.kind;
  const register = top === "compareA" ? timer.channels[0]!.compare : top === "capture" ? timer.capture : undefined;
  return pulse.hz > 0 && (register === undefined || value(register) === final[register]);
}
