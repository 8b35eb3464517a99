/** The engine's thread: takes questions in order, answers each, never lets an exception out. */
import { parentPort, workerData } from "node:worker_threads";
import { type DoorLimits, Stopped } from "../limits.js";
import { createParser } from "../parse/parse.js";
import { Desk } from "./desk.js";
import { type AnswerMessage, type QuestionMessage, STOP_SLOT } from "./questions.js";

/** Thrown inside an analysis when its time is up. */
class Late extends Stopped {}

/** Runs until the thread is ended. `beside`: the folder of the bundle, where the parser's files are. */
export async function runEngineThread(beside: string): Promise<void> {
  const port = parentPort;
  if (port === null) throw new Error("not a thread");
  const { flag, limits } = workerData as { flag: SharedArrayBuffer; limits: DoorLimits };
  const slots = new Int32Array(flag);
  // Never from the workspace: a sketch's folder may hold anything.
  const desk = new Desk(await createParser("auto", { directories: [beside] }), limits);

  port.on("message", (question: QuestionMessage) => {
    const deadline = performance.now() + limits.editorMilliseconds;
    const stop = (): void => {
      if (Atomics.load(slots, STOP_SLOT) === question.id) throw new Stopped();
      if (performance.now() > deadline) throw new Late();
    };
    port.postMessage(answered(desk, question, stop));
  });
}

function answered(desk: Desk, question: QuestionMessage, stop: () => void): AnswerMessage {
  const { id } = question;
  try {
    desk.takeBuffers(question.buffers);
    return { id, outcome: "answer", answer: desk.answer(question, stop) };
  } catch (error) {
    if (error instanceof Late) return { id, outcome: "late" };
    if (error instanceof Stopped) return { id, outcome: "stopped" };
    return { id, outcome: "fault", reason: describe(error) };
  }
}

/** Name, message and the first places of the stack: enough to find a bug, without a word of the sketch. */
function describe(error: unknown): string {
  if (!(error instanceof Error)) return `the engine failed: ${typeof error}`;
  const places = (error.stack ?? "")
    .split("\n")
    .filter((line) => line.trimStart().startsWith("at "))
    .slice(0, 6)
    .map((line) => line.trim().replace(/\(?[^()\s]*[\\/]/, "("));
  return `the engine failed: ${error.name}: ${error.message.slice(0, 200)} ${places.join(" ")}`;
}
