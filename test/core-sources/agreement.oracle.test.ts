/**
 * The core's own sources, executed, against the built-in model: every sketch of the oracle, every marked sketch of signals,
 * every single call of the core. Equal; or, where software's own time decides, what is executed holds what the model says:
 * the time that executed statements take is bounded less closely than that of a model.
 */
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { coreFolder } from "../oracle/compile.js";
import { coreCalls } from "../oracle/core-calls.js";
import { notContained, runningSignals } from "./running-signals.js";

const core = coreFolder();
const sketches = join(__dirname, "../oracle/sketches");
const signals = join(__dirname, "../signals");
const made = mkdtempSync(join(tmpdir(), "pulsewright-core-"));
afterAll(() => rmSync(made, { recursive: true, force: true }));

/** Tones come from an interrupt routine: executed, it is one that switches a pin, at a rate that is not told. */
const TONES = /\btone\s*\(/;

/** Main files of a folder: .ino, .c, .cpp, and those of folders that hold an .ino of their own name. */
function mainFiles(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    if (/\.(?:ino|c|cpp)$/.test(name)) return [join(folder, name)];
    const main = join(folder, name, `${name}.ino`);
    return existsSync(main) ? [main] : [];
  });
}

async function compare(path: string, board?: string): Promise<void> {
  const model = await runningSignals(path, board, undefined);
  const own = await runningSignals(path, board, core);
  expect(notContained(model, own), "not in what was executed").toEqual([]);
  if (!TONES.test(readFileSync(path, "utf8")))
    expect(notContained(own, model, "let be"), "executed, not in the model").toEqual([]);
  expect(own.gaps.filter((gap) => !model.gaps.includes(gap))).toEqual([]);
}

describe("the oracle's sketches", () => {
  for (const folder of [sketches, join(sketches, "layouts")]) {
    for (const path of mainFiles(folder)) it(path.slice(sketches.length + 1), () => compare(path, "uno"));
  }
  for (const path of mainFiles(join(sketches, "mega")))
    it(path.slice(sketches.length + 1), () => compare(path, "mega"));
});

describe("marked sketches of signals", () => {
  for (const name of readdirSync(signals).filter((each) => each.endsWith(".ino"))) {
    it(name, () => compare(join(signals, name)));
  }
});

describe("single calls", () => {
  const calls = coreCalls();
  it(`${calls.length} of them`, { timeout: 300_000 }, async () => {
    for (const { name, board, text } of calls) {
      const path = join(made, `${name}.ino`);
      writeFileSync(path, text);
      await compare(path, board).catch((error: unknown) => {
        throw new Error(`${name}: ${String(error)}`);
      });
    }
  });
});
