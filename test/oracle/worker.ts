/** Compiles and runs sketches off the main thread: one task in, one answer out. */
import { parentPort } from "node:worker_threads";
import { type BoardId, CompileError, chipOf, compileSketch, readSketch } from "./compile.js";
import { type Observation, observe } from "./measure.js";
import { readsInputs, scenariosFor } from "./scenarios.js";
import type { PartsTraits } from "./timer.js";

export interface Task {
  readonly id: number;
  readonly path: string;
  readonly board: BoardId;
  /** Simulated cycles at least; 200 or 300 ms unless told. */
  readonly cycles?: number;
  /** Simulated cycles at most. */
  readonly maxCycles: number;
  /** Turns of loop to be seen. */
  readonly turns?: number;
  readonly traits: PartsTraits;
  /** Sketches with undefined behaviour in sight are refused. */
  readonly strict?: boolean;
}

export interface Answer {
  readonly id: number;
  readonly observations: readonly Observation[];
  readonly deterministic: boolean;
  /** Compiler's words, or what went wrong in the machine. */
  readonly problem: string | null;
}

export async function work(task: Task): Promise<Answer> {
  try {
    const text = readSketch(task.path);
    const map = chipOf(task.board);
    const image = await compileSketch({ path: task.path, strict: task.strict ?? false }, task.board);
    const scenarios = scenariosFor(text, map);
    const cycles = task.cycles ?? (scenarios.length > 1 ? 3_200_000 : 4_800_000);
    const observations = scenarios.map(({ analog, inputs }) =>
      observe(map, image, {
        analog,
        inputs,
        cycles,
        maxCycles: task.maxCycles,
        partsTraits: task.traits,
        turns: task.turns,
      }),
    );
    return { id: task.id, observations, deterministic: !readsInputs(text), problem: null };
  } catch (error) {
    const problem = error instanceof CompileError ? error.message : String((error as Error).stack ?? error);
    return { id: task.id, observations: [], deterministic: false, problem };
  }
}

/** Serves tasks until the main thread ends it. */
export function serve(): void {
  const port = parentPort!;
  port.on("message", (task: Task) => {
    void work(task).then((answer) => port.postMessage(answer));
  });
}
