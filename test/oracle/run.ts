/**
 * The oracle as a command: compiles and simulates sketches, asks the built command line for its report on the same
 * files, and compares. Ends with `N passed, N failed`; a sketch passes when it is sound.
 */
import { existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { basename, join, relative } from "node:path";
import { isMainThread } from "node:worker_threads";
import { type BoardId, cacheFolder, coreFolder, projectRoot, readSketch } from "./compile.js";
import { coreCalls } from "./core-calls.js";
import { writeGenerated } from "./generate.js";
import { judge, type Verdict } from "./judge.js";
import { type Options, parseOptions } from "./options.js";
import { runAll } from "./pool.js";
import { reports } from "./product.js";
import type { ReportedSketch } from "./report-shape.js";
import { keepShrunk, LONG_CYCLES, shrinkSketch } from "./shrink/failing.js";
import { type Summary, summarise } from "./summary.js";
import { BY_THE_SHEET, REAL_PARTS } from "./timer.js";
import { type Answer, serve, type Task } from "./worker.js";

/** Hand-written sketches may be slow: up to 4 s of their time. Random ones that wait for ever get 1 s. */
const HAND_CYCLES = 64_000_000;
const RANDOM_CYCLES = 16_000_000;
/** For registers that go on moving: a byte counts round in 256 turns. */
const WHOLE_COURSE = 300;
/** Failing random sketches are shrunk at once: so many, and so long each. */
const SHRUNK_AT_ONCE = 3;
const SECONDS_AT_ONCE = 60;

const RANDOM_NAME = /random-\d+(?:\.ino)?$/;

interface Job {
  readonly path: string;
  readonly board: BoardId;
}

/** Every sketch of a folder: .ino files, and folders that hold an .ino of their own name. */
export function sketchesIn(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) return existsSync(join(path, `${entry.name}.ino`)) ? [path] : [];
      return /\.(?:ino|c|cpp)$/.test(entry.name) ? [path] : [];
    });
}

/** The first line of a kept random sketch says for which board it is. */
function boardOf(path: string, asked: BoardId): BoardId {
  const first = existsSync(path) ? readSketch(path).split("\n", 1)[0]! : "";
  return (/^\/\/.*\bboard (uno|nano|mega)\b/.exec(first)?.[1] as BoardId | undefined) ?? asked;
}

function jobs(options: Options, root: string): Job[] {
  const found: Job[] = options.paths.map((path) => ({ path, board: boardOf(path, options.board) }));
  if (options.hand) {
    const folder = join(root, "test/oracle/sketches");
    found.push(...sketchesIn(folder).map((path): Job => ({ path: relative(root, path), board: "uno" })));
    found.push(
      ...sketchesIn(join(folder, "layouts")).map((path): Job => ({ path: relative(root, path), board: "uno" })),
    );
    found.push(...sketchesIn(join(folder, "mega")).map((path): Job => ({ path: relative(root, path), board: "mega" })));
  }
  if (options.core) {
    const folder = cacheFolder("core-calls");
    for (const { name, board, text } of coreCalls()) {
      const path = join(folder, `${name}.ino`);
      writeFileSync(path, text);
      found.push({ path: relative(root, path), board });
    }
  }
  if (options.count > 0) {
    const folder = options.keep ?? cacheFolder("random", String(process.pid));
    mkdirSync(folder, { recursive: true });
    console.log(`random sketches: ${options.count} from seed ${options.seed}`);
    for (let index = 0; index < options.count; index++) {
      const { path, board } = writeGenerated(options.seed + index, folder);
      found.push({ path: relative(root, path), board });
    }
  }
  return found;
}

async function main(): Promise<number> {
  const options = parseOptions(process.argv.slice(2));
  if (typeof options === "string") {
    console.error(options);
    return 2;
  }
  const root = projectRoot();
  const started = Date.now();
  const all = jobs(options, root);
  const tasks = all.map(
    ({ path, board }, id): Task => ({
      id,
      path,
      board,
      traits: options.sheet ? BY_THE_SHEET : REAL_PARTS,
      ...(options.milliseconds === null || !RANDOM_NAME.test(path) ? {} : { cycles: 16_000 * options.milliseconds }),
      maxCycles: RANDOM_NAME.test(path) ? RANDOM_CYCLES : HAND_CYCLES,
    }),
  );
  if (options.shrink) return shrinkAll(tasks, options.inexact, options.seconds);
  const answers = await runAll(__filename, tasks);
  const simulated = Date.now();
  if (options.observe) {
    for (const answer of answers) print(all[answer.id]!.path, answer);
    return answers.some(({ problem }) => problem !== null) ? 1 : 0;
  }
  if (!existsSync(join(root, "dist/pulsewright.js"))) {
    console.error("dist/pulsewright.js is not there: run `npm run build` first");
    return 2;
  }
  const verdicts: Verdict[] = [];
  const broken: { path: string; problem: string }[] = [];
  const doubtful: { task: Task; report: ReportedSketch | undefined; verdict: Verdict }[] = [];
  for (const board of ["uno", "nano", "mega"] as const) {
    const mine = answers.filter(({ id }) => all[id]!.board === board);
    if (mine.length === 0) continue;
    const paths = mine.map(({ id }) => all[id]!.path);
    const told = reports(root, board, paths, options.ownCore ? ["--core", coreFolder()] : []);
    for (const answer of mine) {
      const { path } = all[answer.id]!;
      const report = told.get(path);
      if (answer.problem !== null) broken.push({ path, problem: answer.problem });
      else if (typeof report === "string") broken.push({ path, problem: report });
      else {
        const verdict = judge(path, answer.observations, report, answer.deterministic);
        if (verdict.regimeOnly || goesOn(verdict)) doubtful.push({ task: tasks[answer.id]!, report, verdict });
        else verdicts.push(verdict);
      }
    }
  }
  // Start-up can last long: whether a state comes back is decided by running on.
  const longer = doubtful.map(({ task, verdict }, id): Task => {
    if (verdict.regimeOnly) return { ...task, id, cycles: LONG_CYCLES, maxCycles: LONG_CYCLES };
    return { ...task, id, maxCycles: LONG_CYCLES, turns: WHOLE_COURSE };
  });
  for (const answer of await runAll(__filename, longer)) {
    const { task, report, verdict } = doubtful[answer.id]!;
    const again = judge(task.path, answer.observations, report, answer.deterministic);
    // Where an own main() goes on for ever cannot be told from outside: there either regime will do.
    const ownMain = answer.observations.some((seen) => seen.ownMain);
    if (!verdict.regimeOnly) verdicts.push(again.regimeOnly ? verdict : again);
    else if (ownMain && again.regimeOnly) verdicts.push({ ...again, exceptions: [] });
    else verdicts.push(again.exceptions.length === 0 ? again : verdict);
  }
  const failing = new Set(verdicts.filter(({ exceptions }) => exceptions.length > 0).map(({ path }) => path));
  const random = tasks.filter(({ path }) => failing.has(path) && RANDOM_NAME.test(path));
  await shrinkAll(random.slice(0, SHRUNK_AT_ONCE), false, SECONDS_AT_ONCE);
  const summary: Summary = summarise(verdicts, broken, options.list);
  for (const line of summary.lines) console.log(line);
  const inDoubt = doubtful.filter(({ verdict }) => verdict.regimeOnly).length;
  if (doubtful.length > 0)
    console.log(
      `run on: ${inDoubt} for 20 s to see what recurs, ${doubtful.length - inDoubt} for ${WHOLE_COURSE} turns to see their course`,
    );
  const seconds = (from: number, to: number): string => ((to - from) / 1000).toFixed(1);
  console.log(
    `time: ${seconds(started, simulated)} s compiled and simulated, ${seconds(simulated, Date.now())} s analysed`,
  );
  if (options.json !== null) writeFileSync(options.json, `${JSON.stringify({ verdicts, broken }, null, 1)}\n`);
  if (options.count > 0 && options.keep === null)
    rmSync(cacheFolder("random", String(process.pid)), { recursive: true });
  console.log(`${summary.passed} passed, ${summary.failed} failed`);
  return summary.failed > 0 ? 1 : 0;
}

/** Registers go on moving, and more is reported than a short run shows: a counter of 256 turns has not come round by then. */
function goesOn(verdict: Verdict): boolean {
  return verdict.exceptions.length === 0 && verdict.varying && verdict.inexact !== null && verdict.inexact.length > 0;
}

/** Prints and keeps the smallest sketch that fails as each of these does. */
async function shrinkAll(tasks: readonly Task[], inexact: boolean, seconds: number): Promise<number> {
  for (const task of tasks) {
    const shrunk = await shrinkSketch(task, inexact, seconds);
    if (shrunk === null) {
      console.log(`${task.path} does not fail`);
      continue;
    }
    const { failure, files, tried, minimal } = shrunk;
    const kept = keepShrunk(files, basename(task.path).replace(/\.\w+$/, ""), task.board);
    console.log(`SHRUNK ${task.path} (${tried} candidates${minimal ? "" : ", time was up"}), kept as ${kept}`);
    for (const reason of failure.reasons.slice(0, 3)) console.log(`    ${failure.kind}: ${reason}`);
    for (const [name, text] of Object.entries(files)) {
      if (Object.keys(files).length > 1) console.log(`    // ---- ${name}`);
      console.log(text.replace(/^/gm, "    ").trimEnd());
    }
  }
  return 0;
}

function print(path: string, answer: Answer): void {
  console.log(`== ${basename(path)} ${answer.deterministic ? "" : "(reads inputs)"}`);
  if (answer.problem !== null) console.log(`  problem: ${answer.problem}`);
  for (const seen of answer.observations) {
    console.log(
      `  ${seen.turnsOfLoop} turns of loop in ${(seen.cycles / 16000).toFixed(0)} ms, interrupts ${seen.interrupts}`,
    );
    for (const state of seen.states) {
      const registers = Object.entries(state.registers).map(([name, value]) => `${name}=${value.toString(16)}`);
      console.log(`  ${state.phase} timer ${state.timer}: ${registers.join(" ")} (${state.where})`);
    }
    for (const signal of seen.signals) {
      if (signal.kind === "not driven") continue;
      const period = signal.periodTicks === null ? "" : ` ${signal.periodTicks.min}..${signal.periodTicks.max}`;
      const high = signal.highTicks === null ? "" : ` high ${signal.highTicks.min}..${signal.highTicks.max}`;
      const by = signal.connected ? "timer" : "port";
      console.log(`  ${signal.phase} ${signal.port} ${signal.kind} ${signal.level ?? ""}${period}${high} by ${by}`);
    }
  }
}

if (isMainThread) {
  void main().then((status) => {
    process.exitCode = status;
  });
} else {
  serve();
}
