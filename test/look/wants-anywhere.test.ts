/**
 * Wants written into functions of sketches that others wrote: nothing else of the analysis changes, and what each is judged on
 * lies within what the whole sketch gives at that pin.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { PinSignal } from "../../server/analysis.js";
import { compareFractions, type Fraction } from "../../shared-model/fraction.js";
import type { Bounds } from "../../shared-model/signal.js";
import { analysedText } from "../runner/analysed-sketch.js";

const FOLDER = join(__dirname, "../oracle/sketches");
/** Every so many of the oracle's sketches; all of them are done in a minute or two with 1. */
const STEP = Number(process.env["PULSEWRIGHT_WANTS_STEP"] ?? 23);

const sketches = readdirSync(FOLDER, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".ino"))
  .sort()
  .filter((_, index) => index % STEP === 0);

/** A want behind every line that ends a statement inside a body. */
function withWants(text: string, pins: readonly string[]): string {
  let depth = 0;
  let at = 0;
  return text
    .split("\n")
    .map((line) => {
      const plain = line.replace(/\/\/.*|"(?:[^"\\]|\\.)*"|'(?:[^'\\]|\\.)*'/g, "");
      const whole = !line.endsWith("\\") && /^[^#]*;\s*$/.test(plain) && !plain.includes("(") === !plain.includes(")");
      for (const letter of plain) depth += letter === "{" ? 1 : letter === "}" ? -1 : 0;
      return whole && depth > 0 ? `${line} // wants ${pins[at++ % pins.length]}: 490 Hz` : line;
    })
    .join("\n");
}

function holds(outer: Bounds<Fraction> | null, inner: Bounds<Fraction> | null): boolean {
  if (outer === null || inner === null) return outer === null;
  return compareFractions(outer.min, inner.min) <= 0 && compareFractions(inner.max, outer.max) <= 0;
}

function covers(outer: PinSignal, inner: PinSignal): boolean {
  if (outer.kind === "unknown") return true;
  if (outer.kind !== inner.kind) return false;
  if (outer.kind === "level") return outer.level === null || outer.level === inner.level;
  return holds(outer.frequencyHz, inner.frequencyHz) && holds(outer.duty, inner.duty);
}

describe("wants in functions of the oracle's sketches", () => {
  for (const name of sketches) {
    it(name, async () => {
      const text = readFileSync(join(FOLDER, name), "utf8").replace(/\r\n/g, "\n");
      if (/\bwants\b|\/\*/.test(text)) return;
      const { analysis: bare } = await analysedText(text);
      const pins = bare.pins.filter(({ timer }) => timer !== null).map(({ port }) => port);
      const { analysis } = await analysedText(withWants(text, pins));
      const shape = (signals: readonly PinSignal[]) =>
        signals.map(({ kind, level, frequencyHz, duty, steps, regime }) => ({
          kind,
          level,
          frequencyHz,
          duty,
          steps,
          regime,
        }));
      expect(analysis.pins.map(({ pin, signals }) => [pin, shape(signals)])).toEqual(
        bare.pins.map(({ pin, signals }) => [pin, shape(signals)]),
      );
      for (const { pin, judgedOn } of analysis.comments) {
        if (judgedOn === undefined) continue;
        const all = analysis.pins.find((candidate) => candidate.pin === pin)?.signals ?? [];
        for (const signal of judgedOn.signals)
          expect(
            all.some((outer) => covers(outer, signal)),
            `${pin}: ${JSON.stringify(signal)}`,
          ).toBe(true);
      }
    });
  }
});
