/** What one execution of a program carries along: the target, limits, recorders, and what was found on the way. */
import type { Chip, Target } from "../../shared-model/chip.js";
import type { Limits, Stop } from "../limits.js";
import type { FunctionCode, Variable } from "../program/ir.js";
import type { LoweredProgram } from "../program/program.js";
import type { Type } from "../program/types.js";
import { Bucket } from "./bucket.js";
import type { Collector } from "./collect.js";
import type { Budget } from "./domain/dependence.js";
import type { AbstractInteger } from "./domain/number.js";
import type { Layout } from "./hardware/layout.js";
import { LeftInParts } from "./left-in-parts.js";
import type { Timing } from "./pulses/timing.js";
import type { State } from "./state.js";
import { equal, join, type Value, widen } from "./value.js";

export interface ExecutionGap {
  readonly reason: string;
  readonly affects: readonly string[];
  readonly start: number;
  readonly end: number;
}

/** Which code is running: for the records of writes and calls. */
export interface Where {
  readonly functionName: string;
  readonly interrupt: string | null;
}

export interface Behalf {
  readonly start: number;
  readonly end: number;
  readonly operator: string;
}

/** Timers whose counter, mode or TOP are changed, and compare units that are moved. */
export class PutOff {
  readonly timers = new Set<number>();
  readonly channels = new Set<number>();

  add(other: PutOff): void {
    for (const timer of other.timers) this.timers.add(timer);
    for (const channel of other.channels) this.channels.add(channel);
  }
}

export class Run {
  readonly gaps = new Map<string, ExecutionGap>();
  /** Values of traced expressions, joined over all executions. */
  readonly traced: (Value | undefined)[];
  readonly variables = new Map<number, Variable>();
  steps = 0;
  /** Steps spent on following loops one turn at a time. */
  unrolled = 0;
  /** Calls of functions by themselves with arguments that are not known. */
  undecidedCalls = 0;
  /** Times that interrupt routines were run. */
  routineRuns = 0;
  exhausted = false;
  /** What is left for tables of values by readings. */
  readonly tables: Budget;
  where: Where = { functionName: "", interrupt: null };
  /** True while global constructors run: the core's init comes after. */
  beforeInit = false;
  /** Routines that may interrupt, with what they may write; filled by interrupts.ts. */
  inInterrupt = false;
  /** The call of the sketch's on whose behalf a function of the core's own sources is running; null outside of such. */
  behalf: Behalf | null = null;
  /** True while analogWrite sets a port level for a duty of 0 or 255: no switching of the sketch's own. */
  byDuty = false;
  /** Values that interrupt routines may have left in variables, by object. */
  readonly interference = new Map<number, Value>();
  /** The same, member by member and element by element. */
  readonly leftInParts = new LeftInParts();
  /** How often each of them grew: after a few times they widen. */
  private readonly growth = new Map<number, number>();
  /** Something grew that had been relied on before: what was worked out until then has to be worked out again. */
  interferenceGrew = false;
  /** Whether a routine lets others in while it runs. */
  routinesNest = false;
  /** Variables that were read in this run, by id. */
  readonly readVariables: boolean[] = [];
  /** Registers that the main program wrote, and timers (as −1 − index) of which it accessed 16 bits at once. */
  private readonly accessed = new Set<number>();
  /** While recurring turns are run once more for their timing. */
  timing: Timing | null = null;
  /** What the main program leaves in variables while it runs for ever, by object: kept where routines switch pins. */
  readonly leftByMain = new Map<number, Value>();
  /** Names of the interrupt routines that write a variable, by object. */
  readonly writersAmongRoutines = new Map<number, Set<string>>();
  /** States that a routine could first come into. */
  untouched: readonly State[] | null = null;
  /** Variables that the main program wrote in setup after that, by object. */
  readonly leftLater = new Set<number>();
  /** Functions being executed, outermost first. */
  readonly frames: FunctionCode[] = [];
  /** Registers that interrupt routines have been seen to write. */
  readonly writtenByInterrupts = new Set<number>();
  /** High bytes that interrupt routines may leave in a timer's TEMP register, by timer. */
  readonly strayHigh = new Map<number, AbstractInteger>();
  /** Whether some routine of the sketch may interrupt this state; set by interrupts.ts. */
  mayInterrupt: (state: State) => boolean = () => false;
  /** Called where time passes; set by interrupts.ts. */
  onTime: (states: State[], start: number) => State[] = (states) => states;
  /** Of the states that recur, those that follow the first coming of a routine; null where that leaves out none. Set by interrupts.ts. */
  afterRoutines: (states: readonly State[], start: number) => State[] | null = () => null;
  /** What the present turn changes outside of routines: on it depends when a timer's routines come. */
  putOff = new PutOff();

  constructor(
    readonly program: LoweredProgram,
    readonly target: Target,
    readonly layout: Layout,
    readonly limits: Limits,
    readonly stop: Stop,
    readonly collector: Collector,
  ) {
    this.tables = { left: limits.tableEntries };
    this.traced = new Array(program.traces);
    for (const variable of program.globals) this.variables.set(variable.id, variable);
    for (const variable of program.startupLocals) this.variables.set(variable.id, variable);
    for (const code of program.functions) {
      for (const variable of code.locals) this.variables.set(variable.id, variable);
      for (const variable of code.parameters) this.variables.set(variable.id, variable);
      if (code.self !== null) this.variables.set(code.self.id, code.self);
      if (code.result !== null) this.variables.set(code.result.id, code.result);
    }
  }

  private runningBucket: Bucket | null = null;

  /** Where the settled states of whatever runs for ever are put together. */
  running(layout: Layout): Bucket {
    this.runningBucket ??= new Bucket(layout);
    return this.runningBucket;
  }

  get chip(): Chip {
    return this.target.chip;
  }

  gap(reason: string, start: number, end: number, affects: readonly string[] = []): void {
    if (this.timing !== null) this.timing.abandon();
    const key = `${start}:${reason}`;
    if (!this.gaps.has(key)) this.gaps.set(key, { reason, affects, start, end });
  }

  trace(index: number, value: Value): void {
    const before = this.traced[index];
    if (before === value) return;
    this.traced[index] = before === undefined ? value : join(before, value);
  }

  /** The main program leaves a value in a variable that routines may read. */
  mainLeaves(object: number, value: Value): void {
    if (this.collector.regime === "setup") {
      if (this.untouched !== null) this.leftLater.add(object);
      return;
    }
    const before = this.leftByMain.get(object);
    if (before === value) return;
    this.leftByMain.set(object, before === undefined ? value : join(before, value));
  }

  /** An interrupt routine leaves a value in a variable that others may read. */
  interfere(object: number, value: Value): void {
    const routine = this.where.interrupt ?? "";
    const writers = this.writersAmongRoutines.get(object);
    if (writers === undefined) this.writersAmongRoutines.set(object, new Set([routine]));
    else writers.add(routine);
    const before = this.interference.get(object);
    if (before === undefined) this.interference.set(object, value);
    else {
      const joined = join(before, value);
      if (equal(joined, before)) return;
      const rounds = (this.growth.get(object) ?? 0) + 1;
      this.growth.set(object, rounds);
      const type = this.variables.get(Math.floor(object / 256))?.type;
      this.interference.set(object, rounds > 4 && type !== undefined ? widen(before, joined, rounds, type) : joined);
    }
    if (this.readVariables[Math.floor(object / 256)] === true) this.interferenceGrew = true;
  }

  /** The same in cells of `type` that begin at offsets from `min` to `max` of a record or an array. */
  interfereInPart(object: number, min: number, max: number, type: Type, value: Value): void {
    const grew = this.leftInParts.leave(object, min, max, type, value);
    if (grew && this.readVariables[Math.floor(object / 256)] === true) this.interferenceGrew = true;
  }

  /** A routine lets others in: from then on it may see what they leave at any time. */
  noteNesting(): void {
    if (!this.routinesNest) this.interferenceGrew = true;
    this.routinesNest = true;
  }

  /** The main program writes a register; `timer`: it is one of 16 bits, of that timer. */
  noteAccess(address: number, timer: number | null): void {
    this.accessed.add(address);
    if (timer !== null) this.accessed.add(-1 - timer);
  }

  /** Starts from what interrupt routines were seen to leave in an earlier run. */
  carryOver(earlier: Run): void {
    for (const [object, value] of earlier.interference) this.interference.set(object, value);
    this.leftInParts.carryOver(earlier.leftInParts);
    for (const [object, rounds] of earlier.growth) this.growth.set(object, rounds);
    for (const address of earlier.writtenByInterrupts) this.writtenByInterrupts.add(address);
    for (const [timer, high] of earlier.strayHigh) this.strayHigh.set(timer, high);
    this.routinesNest = earlier.routinesNest;
  }

  /** An interrupt routine has written a register; `high` is what it left in TEMP, where it did. */
  noteInterruptWrite(address: number, timer: number | null, high: AbstractInteger | null): void {
    if (!this.writtenByInterrupts.has(address)) {
      this.writtenByInterrupts.add(address);
      if (this.accessed.has(address)) this.interferenceGrew = true;
    }
    if (timer === null || high === null) return;
    const before = this.strayHigh.get(timer);
    const after = before === undefined ? high : join(before, high);
    if (before !== undefined && equal(before, after)) return;
    this.strayHigh.set(timer, after as AbstractInteger);
    if (this.accessed.has(-1 - timer)) this.interferenceGrew = true;
  }

  /** States that are not to be merged although the timers run alike. */
  apart(a: State, b: State): boolean {
    return this.timing?.apart(a, b) ?? false;
  }

  /** Counts work; past the limit everything widens, and a gap says so. */
  tick(start: number): void {
    this.steps++;
    if ((this.steps & 0x3ff) === 0) {
      this.stop();
      this.timing?.goOn(this.steps);
    }
    if (this.steps > this.limits.steps && !this.exhausted) {
      this.exhausted = true;
      this.gap("the sketch takes more steps than are followed; values after this are not exact", start, start);
    }
  }
}
