/**
 * Plans by the simulator's word: `node test/oracle/run.mjs --plans N --seed S`. Random wants are planned, the edited sketch is
 * compiled and run, and frequency, duty and the switch-over are measured. Ends with `N passed, N failed`.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { isMainThread, parentPort, Worker } from "node:worker_threads";
import { createParser } from "../../../server/parse/parse.js";
import { cacheFolder, coreArchive } from "../compile.js";
import { WORKERS } from "../pool.js";
import { type PlanOutcome, runWant } from "./plan-run.js";
import { wantedSketch } from "./random-want.js";

/** Sketches without a plan are not counted; so many tries for each that is. */
const TRIES_EACH = 4;

interface Told {
  readonly seed: number;
  readonly outcome: PlanOutcome | { readonly broken: string };
}

async function tell(seed: number): Promise<Told> {
  const parser = await createParser("auto");
  const sketch = wantedSketch(seed);
  try {
    return { seed, outcome: await runWant(sketch, parser, seed) };
  } catch (error) {
    return { seed, outcome: { broken: String((error as Error).stack ?? error) } };
  }
}

function serve(): void {
  parentPort!.on("message", (seed: number) => {
    void tell(seed).then((told) => parentPort!.postMessage(told));
  });
}

interface Asked {
  readonly count: number;
  readonly seed: number;
  readonly list: boolean;
}

function asked(words: readonly string[]): Asked | null {
  const after = (word: string) => (words.includes(word) ? Number(words[words.indexOf(word) + 1]) : undefined);
  const count = after("--plans") ?? Number.NaN;
  const seed = after("--seed") ?? 1;
  return Number.isSafeInteger(count) && Number.isSafeInteger(seed) && count > 0
    ? { count, seed, list: words.includes("--list") }
    : null;
}

async function main(): Promise<number> {
  const request = asked(process.argv.slice(2));
  if (request === null) {
    console.error("usage: node test/oracle/run.mjs --plans N [--seed S] [--list]");
    return 2;
  }
  const started = Date.now();
  await coreArchive("nano");
  await coreArchive("mega");
  const failing = cacheFolder("plans");
  let next = request.seed;
  let passed = 0;
  let failed = 0;
  let none = 0;
  let compared = 0;
  const last = request.seed + request.count * TRIES_EACH;
  const hear = ({ seed, outcome }: Told): void => {
    if ("broken" in outcome) {
      failed++;
      console.log(`BROKEN ${seed}: ${outcome.broken}`);
    } else if (outcome.title === null) {
      none++;
      if (request.list) console.log(`no plan ${seed}: ${outcome.why}`);
    } else if (outcome.faults.length > 0) {
      failed++;
      mkdirSync(failing, { recursive: true });
      const kept = join(failing, `want-${seed}.ino`);
      writeFileSync(kept, wantedSketch(seed).text);
      console.log(`WRONG ${seed}: ${outcome.title}, kept as ${kept}`);
      for (const fault of outcome.faults) console.log(`    ${fault}`);
      if (request.list) console.log(outcome.edited.replace(/^/gm, "    "));
    } else {
      passed++;
      if (outcome.dutyCompared) compared++;
    }
  };
  const one = (): Promise<void> =>
    new Promise((resolve, reject) => {
      const worker = new Worker(__filename);
      const feed = (): void => {
        if (passed + failed >= request.count || next >= last) {
          void worker.terminate();
          resolve();
        } else worker.postMessage(next++);
      };
      worker.on("message", (told: Told) => {
        hear(told);
        feed();
      });
      worker.on("error", reject);
      feed();
    });
  await Promise.all(Array.from({ length: WORKERS }, one));
  console.log(
    `wants: ${passed + failed} planned, compiled and measured from seed ${request.seed} on, ${compared} with their duty compared; ${none} without a plan`,
  );
  console.log(`time: ${((Date.now() - started) / 1000).toFixed(1)} s`);
  if (passed + failed < request.count) {
    console.log(`only ${passed + failed} of ${request.count} wants had a plan`);
    failed++;
  }
  console.log(`${passed} passed, ${failed} failed`);
  return failed > 0 ? 1 : 0;
}

if (isMainThread) {
  void main().then((status) => {
    process.exitCode = status;
  });
} else {
  serve();
}
