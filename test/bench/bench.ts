/**
 * `npm run bench`: how long everything takes, for sketches of 100, 1,000 and 5,000 lines and for a few that ask for the worst.
 * `node dist/bench.js --once LINES` is one cold measurement, which the bench asks of processes of its own;
 * `--worst [NAME]` runs the worst cases alone;
 * `node --cpu-prof dist/bench.js --profile LINES` runs one sketch for some seconds, for a profile to look at.
 */
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { DOOR_LIMITS } from "../../server/limits.js";
import { createParser } from "../../server/parse/parse.js";
import { changeToDiagnostics } from "./change-to-diagnostics.js";
import { bareTreeSitter, type Measured, measure, median, type Timings } from "./measure.js";
import { benchSketch } from "./sketches.js";
import { worstSketches } from "./worst-sketches.js";

const LENGTHS = [100, 1_000, 5_000];
const COLD_RUNS = 3;
const WARM_RUNS = 15;
/** A sketch that takes seconds is measured fewer times. */
const LONGEST_MILLISECONDS = 10_000;
/** Enough for the compiler of the JavaScript engine to have settled. */
const WARMING_MILLISECONDS = 2_000;
/** What any file under 5,000 lines may take, findings aside. */
const BUDGET_MILLISECONDS = 100;

const COLUMNS: readonly (keyof Timings)[] = [
  "treeSitter",
  "preprocess",
  "parse",
  "lower",
  "execute",
  "conclude",
  "whole",
  "findings",
];

async function main(): Promise<void> {
  const [kind, value] = process.argv.slice(2);
  if (kind === "--once") return console.log(JSON.stringify(await once(benchSketch(Number(value)))));
  if (kind === "--profile") return profile(benchSketch(Number(value ?? 1_000)));
  if (kind === "--worst") return worst(value);

  console.log(`node ${process.version}, ${process.platform}-${process.arch}; medians, milliseconds`);
  console.log("tree-sitter: the text as written, its parser alone. ratio: whole analysis over that.\n");
  console.log(row("", [...COLUMNS.map(heading), "ratio"]));
  for (const lines of LENGTHS) {
    const cold = Array.from({ length: COLD_RUNS }, () => coldRun(lines));
    console.log(timingsRow(`${lines} lines, cold`, cold));
    const warm = await warmRuns(benchSketch(lines));
    console.log(timingsRow(`${lines} lines, warm`, warm));
    const unsettled = warm[0]!.gaps;
    if (unsettled.length > 0) console.log(`    gaps: ${[...new Set(unsettled)].join("; ")}`);
  }
  console.log("");
  await worst();

  const server = join(__dirname, "server.js");
  if (!existsSync(server)) return console.log("\nno server.js beside the bench: run npm run build first");
  console.log("\nLSP, a letter typed until the diagnostics are there (nothing new in them, so no pause for typing):");
  for (const lines of LENGTHS) {
    const { opened, changes } = await changeToDiagnostics(server, benchSketch(lines), 20);
    const givenUp = Math.max(...changes) >= DOOR_LIMITS.editorMilliseconds ? " (given up: no answer)" : "";
    console.log(
      `${`${lines} lines`.padEnd(30)}opened ${shown(opened)} ms, changed ${shown(median(changes))} ms, slowest ${shown(Math.max(...changes))} ms${givenUp}`,
    );
  }
}

/** The worst cases one by one: what each is hard on, and which are past what an editor should wait for. */
async function worst(only = ""): Promise<void> {
  for (const { name, hardOn, text } of worstSketches()) {
    if (!name.includes(only)) continue;
    const runs = await warmRuns(text, 5, 300);
    const { complete, steps, gaps } = runs[0]!;
    const slow = median(runs.map((run) => run.whole)) > BUDGET_MILLISECONDS ? "  OVER" : "";
    console.log(`${timingsRow(name, runs)}  ${steps} steps${complete ? "" : ", incomplete"}${slow}`);
    console.log(`    ${hardOn}; ${text.split("\n").length} lines${gaps.length > 0 ? `; gaps: ${distinct(gaps)}` : ""}`);
  }
}

function distinct(gaps: readonly string[]): string {
  const all = [...new Set(gaps)];
  return all.slice(0, 3).join("; ") + (all.length > 3 ? ` and ${all.length - 3} more` : "");
}

async function once(text: string): Promise<Measured> {
  const parser = await createParser("auto", { directories: [__dirname, process.cwd()] });
  return measure(text, parser, bare());
}

function bare(): (text: string) => void {
  const parse = bareTreeSitter();
  if (parse === undefined)
    throw new Error("the native build of tree-sitter does not load here: nothing to measure against");
  return parse;
}

/** One measurement in a process of its own. */
function coldRun(lines: number): Measured {
  return JSON.parse(
    execFileSync(process.execPath, [__filename, "--once", String(lines)], { encoding: "utf8" }),
  ) as Measured;
}

async function warmRuns(text: string, count = WARM_RUNS, milliseconds = WARMING_MILLISECONDS): Promise<Measured[]> {
  const parser = await createParser("auto", { directories: [__dirname, process.cwd()] });
  const parse = bare();
  const until = performance.now() + milliseconds;
  do measure(text, parser, parse);
  while (performance.now() < until);
  const runs: Measured[] = [];
  const enough = performance.now() + LONGEST_MILLISECONDS;
  while (runs.length < count && (runs.length < 3 || performance.now() < enough))
    runs.push(measure(text, parser, parse));
  return runs;
}

async function profile(text: string): Promise<void> {
  const runs = await warmRuns(text, 100);
  console.log(timingsRow("profiled", runs));
}

function heading(column: keyof Timings): string {
  return column === "treeSitter" ? "tree-sitter" : column;
}

function timingsRow(name: string, runs: readonly Measured[]): string {
  const of = (column: keyof Timings): number => median(runs.map((run) => run[column]));
  return row(name, [...COLUMNS.map((column) => shown(of(column))), (of("whole") / of("treeSitter")).toFixed(1)]);
}

function row(name: string, cells: readonly string[]): string {
  return name.padEnd(30) + cells.map((cell) => cell.padStart(12)).join("");
}

function shown(milliseconds: number): string {
  return milliseconds.toFixed(milliseconds < 10 ? 2 : 1);
}

void main();
