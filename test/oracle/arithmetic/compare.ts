/** Runs an arithmetic program on the chip and through the interpreter, and says where the two differ. */
import type { RegisterValue } from "../../../shared-model/register-value.js";
import { analysedText } from "../../runner/analysed-sketch.js";
import { chipOf, compileSketch } from "../compile.js";
import { Machine } from "../machine.js";
import { INPUTS } from "./expressions.js";
import type { ArithmeticProgram } from "./programs.js";

export interface Comparison {
  /** Statements whose value on the chip lies outside what the interpreter says. */
  readonly outside: readonly string[];
  /** Statements without an input, a float or 64 bits in them that the interpreter does not know exactly. */
  readonly vague: readonly string[];
  readonly compared: number;
  /** Values without an input that the interpreter knows exactly, whatever their type. */
  readonly exact: number;
  /** 64-bit values on which the compiler contradicts itself: without optimising it says what the interpreter says. */
  readonly miscompiled: number;
}

/** Far more than any of these programs needs (64-bit divisions take some thousand each). */
const CYCLES = 4_000_000;
const UNOPTIMISED = '#pragma GCC optimize ("O0")\n';

/** `onChip`: another text for the chip alone. */
export async function compare(name: string, program: ArithmeticProgram, onChip = program.text): Promise<Comparison> {
  const runs = await runsOf(name, onChip);
  let plain: number[][] | null = null;
  const { analysis } = await analysedText(program.text, `${name}.cpp`);
  const told = analysis.writes.filter(({ register }) => register === "ICR1");
  const expected = program.results.reduce((sum, { writes }) => sum + writes, 0);
  const counts = [...runs.map((run) => run.length), told.length];
  if (counts.some((count) => count !== expected)) {
    const gaps = analysis.gaps.map(({ reason }) => reason).join("; ");
    const problem = `${name}: ${expected} writes expected, ${counts.join(", ")} seen (${gaps})`;
    return { outside: [problem], vague: [], compared: 0, exact: 0, miscompiled: 0 };
  }
  const outside: string[] = [];
  const vague: string[] = [];
  let exact = 0;
  let miscompiled = 0;
  let at = 0;
  for (const { text, writes, fixed, loose, wide } of program.results) {
    for (let part = 0; part < writes; part++, at++) {
      const value = told[at]!.after;
      const seen = runs.map((run) => run[at]!);
      const shown = `${text} // bits ${16 * part} up: chip ${[...new Set(seen)].join(", ")}, interpreter ${show(value)}`;
      if (value.min === value.max && fixed) exact++;
      if (seen.every((one) => holds(value, one))) {
        if (fixed && !loose && value.min !== value.max) vague.push(shown);
        continue;
      }
      // avr-gcc 5.4 loses shifts of 64-bit values that it keeps in registers.
      plain ??= wide ? await runsOf(name, UNOPTIMISED + onChip) : null;
      if (wide && plain?.every((run) => holds(value, run[at]!))) miscompiled++;
      else outside.push(shown);
    }
  }
  return { outside, vague, compared: program.results.length, exact, miscompiled };
}

async function runsOf(name: string, text: string): Promise<number[][]> {
  const { flash } = await compileSketch({ path: `${name}.cpp`, text }, "uno");
  return Array.from({ length: INPUTS }, (_, input) => writesOnChip(flash, input));
}

function writesOnChip(flash: Uint8Array, input: number): number[] {
  const machine = new Machine(chipOf("uno"), flash, {
    inputs: [0, 1].map((bit) => ({ cycle: 0, port: `PB${bit}`, level: ((input >> bit) & 1) as 0 | 1 })),
  });
  const writes: number[] = [];
  const timer = machine.timers[1]!;
  const store = timer.writeCapture.bind(timer);
  timer.writeCapture = (value) => {
    writes.push(value);
    store(value);
  };
  machine.run(CYCLES);
  return writes;
}

function holds(value: RegisterValue, one: number): boolean {
  if (value.values !== null) return value.values.includes(one);
  return one >= value.min && one <= value.max && (one & value.zeros) === 0 && (~one & value.ones) === 0;
}

function show(value: RegisterValue): string {
  return value.values !== null ? `{${value.values.join(", ")}}` : `${value.min}..${value.max}`;
}
