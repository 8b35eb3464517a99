/** Two workers that share the compiling and simulating. */
import { Worker } from "node:worker_threads";
import { type BoardId, coreArchive } from "./compile.js";
import type { Answer, Task } from "./worker.js";

export const WORKERS = 2;

/** Runs all tasks; answers come in the order of the tasks. `file` is the bundle that serves when run as a worker. */
export async function runAll(
  file: string,
  tasks: readonly Task[],
  told: (answer: Answer) => void = () => {},
): Promise<Answer[]> {
  // The core once, before the workers would both build it.
  for (const board of new Set<BoardId>(tasks.map(({ board }) => board))) await coreArchive(board);
  const answers: Answer[] = [];
  let next = 0;
  const one = (): Promise<void> =>
    new Promise((resolve, reject) => {
      const worker = new Worker(file);
      const feed = (): void => {
        const task = tasks[next++];
        if (task === undefined) {
          void worker.terminate();
          resolve();
        } else {
          worker.postMessage(task);
        }
      };
      worker.on("message", (answer: Answer) => {
        answers.push(answer);
        told(answer);
        feed();
      });
      worker.on("error", reject);
      feed();
    });
  await Promise.all(Array.from({ length: Math.min(WORKERS, tasks.length) }, one));
  return answers.sort((a, b) => a.id - b.id);
}
