/**
 * In which way a sketch fails before the oracle, and the shrinker for such sketches. A candidate fails in the same way
 * when it is outside the report (or inexact) at one of the same timers or pins.
 */
import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { basename, extname, join, relative } from "node:path";
import { type BoardId, cacheFolder, projectRoot } from "../compile.js";
import { judge } from "../judge.js";
import { reports } from "../product.js";
import type { Task } from "../worker.js";
import { work } from "../worker.js";
import { type Files, shrink } from "./shrink.js";

/** 20 s, for the few where the question is whether a state recurs. */
export const LONG_CYCLES = 320_000_000;

export interface Failure {
  readonly kind: "outside" | "inexact" | "no report";
  /** Timers and ports, each with the manner of its failing: `timer 1 not in`, `PB2 never seen`. */
  readonly places: readonly string[];
  readonly reasons: readonly string[];
  /** Only a long run shows it: the regimes are in question. */
  readonly long: boolean;
}

type Judged = Omit<Task, "id">;

/** How a sketch fails; null where it passes, or where it does not compile. */
export async function failureOf(task: Judged, inexact: boolean): Promise<Failure | null> {
  const answer = await work({ ...task, id: 0 });
  if (answer.problem !== null) return null;
  const report = reports(projectRoot(), task.board, [task.path]).get(task.path);
  const long = task.cycles === LONG_CYCLES;
  if (typeof report === "string") return { kind: "no report", places: ["the command line"], reasons: [report], long };
  const verdict = judge(task.path, answer.observations, report, answer.deterministic);
  if (verdict.exceptions.length > 0) {
    if (!verdict.regimeOnly) return failure("outside", verdict.exceptions, long);
    if (!long && !answer.observations.some(({ ownMain }) => ownMain)) return null;
    return failure("outside", verdict.exceptions, long);
  }
  if (inexact && verdict.inexact !== null && verdict.inexact.length > 0)
    return failure("inexact", verdict.inexact, long);
  return null;
}

function failure(kind: Failure["kind"], reasons: readonly string[], long: boolean): Failure {
  const places = reasons.map((reason) => {
    const where = /^(?:timer \d|P[A-L]\d)/.exec(reason)?.[0] ?? "";
    const manner = /not in|no state|report has nothing|never seen|running states|unknown|chip has|reported/.exec(
      reason,
    );
    return `${where} ${manner?.[0] ?? reason}`;
  });
  return { kind, places: [...new Set(places)], reasons, long };
}

export interface ShrunkSketch {
  readonly files: Files;
  readonly failure: Failure;
  readonly tried: number;
  readonly minimal: boolean;
}

/** The smallest sketch that fails as the one at `task.path` does; null where that one does not fail. */
export async function shrinkSketch(task: Judged, inexact: boolean, seconds: number): Promise<ShrunkSketch | null> {
  const started = Date.now();
  const folder = cacheFolder("shrink", String(process.pid));
  const judged = async (files: Files, strict: boolean, cycles: number | undefined): Promise<Failure | null> => {
    const names = Object.keys(files);
    if (!names.some((name) => name.startsWith("candidate."))) return null;
    const plain = names.length === 1;
    const home = plain ? folder : join(folder, "candidate");
    rmSync(join(folder, "candidate"), { recursive: true, force: true });
    mkdirSync(home, { recursive: true });
    for (const [name, text] of Object.entries(files)) writeFileSync(join(home, name), text);
    const path = relative(projectRoot(), plain ? join(home, names[0]!) : home);
    return failureOf(
      { ...task, path, strict, ...(cycles === undefined ? {} : { cycles, maxCycles: cycles }) },
      inexact,
    );
  };
  const whole = filesOf(task.path);
  let cycles = task.cycles;
  let original = await judged(whole, false, cycles);
  if (original === null || (inexact && original.kind !== "inexact")) {
    cycles = LONG_CYCLES;
    original = (await judged(whole, false, cycles)) ?? original;
  }
  if (original === null) return null;
  if (!original.long) cycles = task.cycles;
  const strict = (await judged(whole, true, cycles)) !== null;
  const alike = (found: Failure | null): found is Failure =>
    found !== null && found.kind === original.kind && found.places.some((place) => original.places.includes(place));
  let last = original;
  const result = await shrink(
    whole,
    async (files) => {
      const found = await judged(files, strict, cycles);
      if (!alike(found)) return false;
      last = found;
      return true;
    },
    () => Date.now() - started > 1000 * seconds,
  );
  rmSync(folder, { recursive: true, force: true });
  return { files: result.files, failure: last, tried: result.tried, minimal: result.minimal };
}

/** A sketch's files; the main one is called candidate, whatever its name was. */
function filesOf(path: string): Files {
  if (statSync(path).isFile()) return { [`candidate${extname(path)}`]: readFileSync(path, "utf8") };
  const main = `${basename(path)}.ino`;
  return Object.fromEntries(
    readdirSync(path)
      .filter((name) => /\.(?:ino|h|hpp|c|cpp)$/.test(name))
      .map((name) => [name === main ? "candidate.ino" : name, readFileSync(join(path, name), "utf8")]),
  );
}

/** Where a shrunk sketch is kept: `NAME-small.ino`, or a folder of that name. */
export function keepShrunk(files: Files, name: string, board: BoardId): string {
  const folder = cacheFolder("shrunk");
  const names = Object.keys(files);
  const note = board === "uno" ? "" : `// board ${board}\n`;
  const home = names.length === 1 ? folder : join(folder, `${name}-small`);
  mkdirSync(home, { recursive: true });
  let kept = home;
  for (const [file, text] of Object.entries(files)) {
    const own = file.replace(/^candidate\b/, `${name}-small`);
    writeFileSync(join(home, own), file.startsWith("candidate.") ? note + text : text);
    if (names.length === 1) kept = join(home, own);
  }
  return kept;
}
