/**
 * The interpreter's arithmetic against the compiler: random expressions over all widths and signs, with casts, shifts,
 * compound assignments, steps, choices and comparisons, compiled by avr-gcc and run on the chip. More by hand:
 * `ARITHMETIC=500 ARITHMETIC_SEED=1000 npx vitest run --config vitest.oracle.config.mts test/oracle/arithmetic`.
 */
import { describe, expect, it } from "vitest";
import { compare } from "./compare.js";
import { arithmeticProgram } from "./programs.js";

const PROGRAMS = Number(process.env["ARITHMETIC"] ?? 25);
const FIRST_SEED = Number(process.env["ARITHMETIC_SEED"] ?? 1);
const EXPRESSIONS = 100;

describe("random arithmetic", () => {
  it(`${PROGRAMS * EXPRESSIONS} expressions come out as on the chip`, {
    timeout: 60_000 + PROGRAMS * 5_000,
  }, async () => {
    const outside: string[] = [];
    const vague: string[] = [];
    const total = { compared: 0, exact: 0, miscompiled: 0 };
    for (let seed = FIRST_SEED; seed < FIRST_SEED + PROGRAMS; seed++) {
      const found = await compare(`arithmetic-${seed}`, arithmeticProgram(seed, EXPRESSIONS));
      outside.push(...found.outside.map((line) => `seed ${seed}: ${line}`));
      vague.push(...found.vague.map((line) => `seed ${seed}: ${line}`));
      total.compared += found.compared;
      total.exact += found.exact;
      total.miscompiled += found.miscompiled;
    }
    console.log(
      `arithmetic: ${total.compared} expressions, ${outside.length} outside, ${vague.length} vague where they must be exact, ` +
        `${total.exact} exact in all, ${total.miscompiled} that the compiler gets wrong when it optimises`,
    );
    expect(outside).toEqual([]);
    expect(vague).toEqual([]);
    expect(total.compared).toBe(PROGRAMS * EXPRESSIONS);
  });

  it("tells a wrong value from a right one", async () => {
    const program = arithmeticProgram(7, 20);
    // The chip runs another text than the interpreter reads.
    const other = program.text.replace(/ICR1 = result(\d+);/, "ICR1 = result$1 + 1;");
    expect((await compare("arithmetic-other", program, other)).outside.length).toBe(1);
    expect((await compare("arithmetic-same", program)).outside).toEqual([]);
  });
});
