/** All limits in one place, each with its reason and the gap it causes (house style, section 9). */

export interface Limits {
  /** Whole machine states kept apart; above it the nearest are merged, and a gap says so. */
  readonly states: number;
  /** Statements and expressions evaluated in one analysis; above it everything widens to unknown. */
  readonly steps: number;
  /** Depth of calls of the sketch's own functions. */
  readonly callDepth: number;
  /** Depth to which a function is followed into itself while its arguments are not known. */
  readonly undecidedRecursion: number;
  /** How many such calls are followed in all. */
  readonly undecidedCalls: number;
  /** Runs of interrupt routines in all, from one state each; above it the states at a point are merged first. */
  readonly routineRuns: number;
  /** Iterations of one loop that are followed one by one before its values are widened. */
  readonly unrolledIterations: number;
  /** States times rounds that all loops together may be followed for; afterwards they widen at once. */
  readonly unrolledSteps: number;
  /** Turns of loop() followed one by one in search of a cycle. */
  readonly followedTurns: number;
  /** The same while one single state goes round: counters and ramps come back after some hundred turns. */
  readonly followedTurnsAlone: number;
  /** Rounds of a fixed point before widening starts. */
  readonly roundsBeforeWidening: number;
  /**
   * Entries of tables by which values are followed back to a reading (execute/domain/dependence.ts); above it they are
   * known by bounds and bits alone.
   */
  readonly tableEntries: number;
  /** Expanded tokens of one program: a macro bomb ends here. */
  readonly tokens: number;
  /** Characters of expanded text. */
  readonly text: number;
  /** Findings sent for one file. */
  readonly findingsPerFile: number;
}

export const DEFAULT_LIMITS: Limits = {
  states: 16,
  steps: 500_000,
  callDepth: 200,
  undecidedRecursion: 10,
  undecidedCalls: 400,
  routineRuns: 1_500,
  unrolledIterations: 4_096,
  unrolledSteps: 16_000,
  followedTurns: 2,
  followedTurnsAlone: 1_024,
  roundsBeforeWidening: 3,
  tableEntries: 600_000,
  tokens: 2_000_000,
  text: 4_000_000,
  findingsPerFile: 200,
};

/** Asked at loop heads: throws `Stopped` where the caller has no more use for the answer. */
export type Stop = () => void;

export class Stopped extends Error {
  constructor() {
    super("stopped");
    this.name = "Stopped";
  }
}

/** What the two doors keep and how long they wait. Times in milliseconds. */
export interface DoorLimits {
  /** Analyses kept for open sketches (each a few MB); older ones are made again when asked for. */
  readonly analysesKept: number;
  /** Longest analysis for the editor: beyond it the sketch is left alone until it changes, and the status says so. */
  readonly editorMilliseconds: number;
  /** Longest analysis on the command line: beyond it the sketch is reported with a gap. */
  readonly commandLineMilliseconds: number;
  /** Fixes of one sketch that the command line proves for a SARIF log, one analysis each: beyond it they are left out, with a note. */
  readonly fixesProved: number;
  /** Beyond `editorMilliseconds`, how long the engine's thread may stay deaf before it is ended. */
  readonly deafMilliseconds: number;
  /** A new finding is shown this long after the last keystroke; one that is gone goes at once. */
  readonly quietMilliseconds: number;
  /** The same while the text does not parse: half-typed code. */
  readonly brokenQuietMilliseconds: number;
  /** An analysis longer than this shows progress. */
  readonly progressAfterMilliseconds: number;
  /** Faults of the engine on one unchanged sketch before it is left alone. */
  readonly faultsBeforeQuarantine: number;
}

export const DOOR_LIMITS: DoorLimits = {
  analysesKept: 8,
  editorMilliseconds: 10_000,
  commandLineMilliseconds: 60_000,
  fixesProved: 60,
  deafMilliseconds: 3_000,
  quietMilliseconds: 300,
  brokenQuietMilliseconds: 1_500,
  progressAfterMilliseconds: 1_000,
  faultsBeforeQuarantine: 2,
};
