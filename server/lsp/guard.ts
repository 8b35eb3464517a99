/**
 * The one guard that every request passes: an exception is logged with its place and answered empty, so that no request can end
 * the session. What tells the client to ask again (a ResponseError) goes through.
 */
import { ResponseError } from "vscode-languageserver/node";

/** Slower requests are worth a line in the log. */
const SLOW_MILLISECONDS = 2_000;

export class Guard {
  readonly #log: (line: string) => void;

  constructor(log: (line: string) => void) {
    this.#log = log;
  }

  async run<T>(name: string, empty: T, work: () => Promise<T>): Promise<T> {
    const started = performance.now();
    try {
      return await work();
    } catch (error) {
      if (error instanceof ResponseError) throw error;
      this.#log(`${name} failed: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
      return empty;
    } finally {
      const took = performance.now() - started;
      if (took > SLOW_MILLISECONDS) this.#log(`${name} took ${Math.round(took)} ms`);
    }
  }
}
