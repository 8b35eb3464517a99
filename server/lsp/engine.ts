/**
 * The protocol side's hold on the engine's thread: one question at a time, the rest wait here, where they can still be
 * withdrawn. A question that does not end costs the thread, not the session: it is ended and started anew, and a sketch that
 * does this twice is left alone until it changes.
 */
import { Worker } from "node:worker_threads";
import type { DoorLimits } from "../limits.js";
import {
  type AnswerMessage,
  type BufferChange,
  type Circumstances,
  type Exchange,
  type QuestionKind,
  type QuestionMessage,
  STOP_SLOT,
} from "./questions.js";

/** Why a question has no answer. */
export type NoAnswer =
  /** An edit made it pointless, or the asker withdrew it. */
  | { readonly kind: "retired" }
  /** The engine failed on this sketch (a bug), took too long, or is being left alone because it did so before. */
  | { readonly kind: "fault"; readonly reason: string };

export type Answered<K extends QuestionKind> =
  | { readonly kind: "answer"; readonly answer: Exchange[K]["answer"] }
  | NoAnswer;

interface Waiting {
  readonly message: Omit<QuestionMessage, "buffers">;
  readonly path: string;
  readonly settle: (answered: Answered<QuestionKind>) => void;
}

/** Smaller is sooner: what a hand waits for goes first. */
const URGENCY: Readonly<Record<QuestionKind, number>> = {
  completion: 0,
  hover: 1,
  resolve: 1,
  actions: 2,
  target: 3,
  targetEdit: 3,
  boards: 3,
  findingPage: 3,
  sheet: 3,
  pins: 3,
  readWant: 1,
  plans: 3,
  planEdit: 3,
  dutyCurve: 3,
  lenses: 4,
  lensTitle: 6,
  hints: 4,
  diagnostics: 5,
};

export interface EngineEvents {
  /** A fault is logged, never shown unasked. */
  readonly log: (line: string) => void;
  /** A question about this path has started or ended. */
  readonly busy: (path: string | null) => void;
}

export class Engine {
  readonly #script: string;
  readonly #limits: DoorLimits;
  readonly #events: EngineEvents;
  #thread: Worker | undefined;
  readonly #flag = new Int32Array(new SharedArrayBuffer(4));
  #running: Waiting | undefined;
  #alarm: NodeJS.Timeout | undefined;
  readonly #waiting: Waiting[] = [];
  /** All open buffers, for a thread that starts anew, and the paths that the present thread has yet to hear of. */
  readonly #buffers = new Map<string, BufferChange>();
  readonly #unsent = new Set<string>();
  readonly #faults = new Map<string, number>();
  #nextId = 1;
  #closed = false;

  /** `script`: the bundle that, run in a thread, answers questions. */
  constructor(script: string, limits: DoorLimits, events: EngineEvents) {
    this.#script = script;
    this.#limits = limits;
    this.#events = events;
  }

  /** A document was opened, edited or closed: whatever is being worked out for its sketch is retired. */
  changed(change: BufferChange): void {
    if (change.text === null) this.#buffers.delete(change.path);
    else this.#buffers.set(change.path, change);
    this.#unsent.add(change.path);
    this.#forgive(change.path);
    this.#retire(change.path);
  }

  /** Files changed on disk. */
  filesChanged(paths: readonly string[]): void {
    for (const path of paths) {
      this.#forgive(path);
      this.#retire(path);
    }
  }

  /** Settles when the answer is there; never rejects. `withdrawn` is called with a function that gives the question up. */
  ask<K extends QuestionKind>(
    kind: K,
    asks: Exchange[K]["asks"],
    circumstances: Circumstances,
    onWithdraw?: (giveUp: () => void) => void,
  ): Promise<Answered<K>> {
    const known = this.#leftAlone(asks.path);
    if (known !== undefined && kind !== "boards" && kind !== "findingPage") {
      return Promise.resolve({ kind: "fault", reason: known });
    }
    return new Promise((resolve) => {
      const waiting: Waiting = {
        message: { id: this.#nextId++, kind, asks, circumstances },
        path: asks.path,
        settle: resolve as (answered: Answered<QuestionKind>) => void,
      };
      onWithdraw?.(() => this.#withdraw(waiting));
      const behind = this.#waiting.findIndex((other) => URGENCY[other.message.kind] > URGENCY[kind]);
      if (behind < 0) this.#waiting.push(waiting);
      else this.#waiting.splice(behind, 0, waiting);
      this.#next();
    });
  }

  async close(): Promise<void> {
    this.#closed = true;
    clearTimeout(this.#alarm);
    for (const waiting of this.#waiting.splice(0)) waiting.settle({ kind: "retired" });
    this.#running?.settle({ kind: "retired" });
    this.#running = undefined;
    await this.#thread?.terminate();
  }

  #next(): void {
    if (this.#running !== undefined || this.#closed) return;
    const waiting = this.#waiting.shift();
    if (waiting === undefined) return;
    this.#running = waiting;
    Atomics.store(this.#flag, STOP_SLOT, 0);
    const thread = this.#thread ?? this.#start();
    const buffers = [...this.#unsent].map(
      (path): BufferChange => this.#buffers.get(path) ?? { path, uri: "", version: 0, text: null },
    );
    this.#unsent.clear();
    thread.postMessage({ ...waiting.message, buffers } satisfies QuestionMessage);
    this.#events.busy(waiting.path);
    // The thread ends a long analysis by itself; this is for one that does not listen any more.
    this.#alarm = setTimeout(
      () =>
        this.#lost(thread, `no answer within ${this.#limits.editorMilliseconds + this.#limits.deafMilliseconds} ms`),
      this.#limits.editorMilliseconds + this.#limits.deafMilliseconds,
    );
  }

  #start(): Worker {
    const thread = new Worker(this.#script, {
      workerData: { flag: this.#flag.buffer, limits: this.#limits },
      // A sketch needs a few MB; what needs more than this is not going to end well.
      resourceLimits: { maxOldGenerationSizeMb: 1_024, stackSizeMb: 16 },
      stdout: true,
      stderr: true,
    });
    this.#thread = thread;
    for (const path of this.#buffers.keys()) this.#unsent.add(path);
    thread.on("message", (message: AnswerMessage) => this.#heard(thread, message));
    thread.on("error", (error) => this.#lost(thread, `the engine's thread failed: ${error.name}: ${error.message}`));
    thread.on("exit", (code) => this.#lost(thread, `the engine's thread ended (${code})`));
    thread.stderr.on("data", (data: Buffer) => this.#events.log(data.toString().trimEnd()));
    thread.unref();
    return thread;
  }

  #heard(thread: Worker, message: AnswerMessage): void {
    const waiting = this.#running;
    if (thread !== this.#thread || waiting === undefined || waiting.message.id !== message.id) return;
    this.#finish();
    switch (message.outcome) {
      case "answer":
        waiting.settle({ kind: "answer", answer: message.answer as Exchange[QuestionKind]["answer"] });
        break;
      case "stopped":
        waiting.settle({ kind: "retired" });
        break;
      case "late":
        this.#fault(waiting, `the analysis took longer than ${this.#limits.editorMilliseconds / 1000} s`);
        break;
      case "fault":
        this.#fault(waiting, message.reason);
        break;
    }
    this.#next();
  }

  /** The thread is gone or deaf: its question is at fault, everything else goes on with a new thread. */
  #lost(thread: Worker, reason: string): void {
    if (thread !== this.#thread) return;
    this.#thread = undefined;
    void thread.terminate();
    const waiting = this.#running;
    if (waiting !== undefined) {
      this.#finish();
      this.#fault(waiting, reason);
    }
    this.#next();
  }

  #finish(): void {
    clearTimeout(this.#alarm);
    this.#running = undefined;
    this.#events.busy(null);
  }

  #fault(waiting: Waiting, reason: string): void {
    const count = (this.#faults.get(waiting.path) ?? 0) + 1;
    this.#faults.set(waiting.path, count);
    this.#events.log(`${waiting.message.kind}: ${reason} (fault ${count} on this sketch)`);
    waiting.settle({ kind: "fault", reason });
  }

  #leftAlone(path: string): string | undefined {
    const count = this.#faults.get(path) ?? 0;
    return count >= this.#limits.faultsBeforeQuarantine
      ? `the analysis failed ${count} times; it is tried again after the next change`
      : undefined;
  }

  /** After a change one more try is allowed; a second fault in a row and the sketch is left alone again. */
  #forgive(changed: string): void {
    for (const [path, count] of this.#faults) {
      if (related(path, changed)) this.#faults.set(path, Math.min(count, this.#limits.faultsBeforeQuarantine - 1));
    }
  }

  #retire(changed: string): void {
    const running = this.#running;
    if (running !== undefined && related(running.path, changed))
      Atomics.store(this.#flag, STOP_SLOT, running.message.id);
    for (const waiting of [...this.#waiting]) {
      if (waiting.path === changed && RETIRED_BY_EDIT.has(waiting.message.kind)) this.#withdraw(waiting);
    }
  }

  /** A question that is already being answered goes on: its analysis is what the next question will need. */
  #withdraw(waiting: Waiting): void {
    const at = this.#waiting.indexOf(waiting);
    if (at >= 0) this.#waiting.splice(at, 1);
    waiting.settle({ kind: "retired" });
  }
}

/** Questions whose positions an edit makes wrong. */
const RETIRED_BY_EDIT: ReadonlySet<QuestionKind> = new Set<QuestionKind>([
  "hover",
  "hints",
  "diagnostics",
  "actions",
  "resolve",
]);

/** Whether two files may belong to one sketch: one stands in the other's folder or below it. */
function related(one: string, other: string): boolean {
  const folder = (path: string): string => path.slice(0, Math.max(path.lastIndexOf("/"), path.lastIndexOf("\\")) + 1);
  return one === other || one.startsWith(folder(other)) || other.startsWith(folder(one));
}
