/**
 * Abstract execution: reset, global constructors, the core's init, setup, loop to a fixed point, interrupt routines
 * let in wherever time passes. Program in, settled states and records out. Knows no files, no LSP, no findings.
 */
import type { Target } from "../../shared-model/chip.js";
import type { Limits, Stop } from "../limits.js";
import { externals } from "../program/declarations.js";
import type { LoweredProgram } from "../program/program.js";
import type { Bucket } from "./bucket.js";
import { runFunction } from "./calls.js";
import { Cells } from "./cells.js";
import { Collector } from "./collect.js";
import { initCore } from "./core/init.js";
import { startByOwnSources } from "./core/own-sources.js";
import { Counters } from "./hardware/counters.js";
import { layoutOf } from "./hardware/layout.js";
import { Machine } from "./hardware/machine.js";
import { letInterruptsIn } from "./interrupts.js";
import { Aggregate } from "./memory.js";
import { runForever } from "./regimes.js";
import { type ExecutionGap, Run } from "./run.js";
import { objectOf, State } from "./state.js";
import { execute as executeStatement, noExits } from "./statements.js";
import { isScalar, type Value, zeroOf } from "./value.js";
import { type WatchedPlace, Watches } from "./watches.js";

export interface Execution {
  readonly setup: Bucket;
  readonly running: Bucket;
  readonly collector: Collector;
  readonly traced: readonly (Value | undefined)[];
  readonly gaps: readonly ExecutionGap[];
  readonly complete: boolean;
  /** Expressions and statements evaluated: for the bench. */
  readonly steps: number;
}

const MAX_PASSES = 6;

/** Runs the program. Where interrupt routines leave values in variables, it runs again until these are all known. */
export function execute(
  program: LoweredProgram,
  target: Target,
  limits: Limits,
  stop: Stop,
  watched: readonly WatchedPlace[] = [],
): Execution {
  const layout = layoutOf(target.chip);
  let before: Run | null = null;
  for (let pass = 0; ; pass++) {
    const run = new Run(program, target, layout, limits, stop, new Collector(layout, new Watches(watched, layout)));
    if (before !== null) run.carryOver(before);
    runOnce(run);
    if (run.interferenceGrew && pass < MAX_PASSES) {
      before = run;
      continue;
    }
    if (run.interferenceGrew) run.gap("values left by interrupt routines did not settle", 0, 0);
    return {
      setup: run.collector.bucket,
      running: run.running(layout),
      collector: run.collector,
      traced: run.traced,
      gaps: [...run.gaps.values()],
      complete: !run.exhausted,
      steps: run.steps,
    };
  }
}

function runOnce(run: Run): void {
  const { program, layout } = run;
  const state = new State(Cells.empty(), Machine.atReset(layout));
  for (const variable of program.globals) {
    // What cannot reach a pin is not kept: reading it gives anything.
    if (externals.has(variable) || !variable.relevant) continue;
    const object = objectOf(variable, 0);
    if (isScalar(variable.type)) state.memory.set(object, zeroOf(variable.type));
    else state.memory.set(object, new Aggregate(new Map(), "zero", null, state.token));
  }
  state.counters = Counters.atReset(layout.timers);
  letInterruptsIn(run);
  run.beforeInit = true;
  let states = executeStatement(run, [state], program.startup, noExits());
  run.beforeInit = false;
  if (program.main !== null) {
    states = runFunction(run, states, program.main);
    // After main avr-libc stops in an endless loop with interrupts off.
    runForever(run, states, program.main.end, (turn) => turn);
    return;
  }
  const { init, beforeSetup, afterTurn, perhapsAfterTurn } = program.hooks;
  if (init !== null) states = init.core ? startByOwnSources(run, states, init) : runFunction(run, states, init);
  else for (const each of states) initCore(run, each);
  for (const hook of beforeSetup) states = runFunction(run, states, hook);
  if (program.setup !== null) states = runFunction(run, states, program.setup);
  const loop = program.loop;
  const place = loop?.end ?? program.setup?.end ?? 0;
  runForever(run, states, place, (turn) => {
    let after = loop === null ? turn : runFunction(run, turn, loop);
    for (const hook of afterTurn) after = runFunction(run, after, hook);
    for (const hook of perhapsAfterTurn) {
      const without = after.map((state) => state.fork());
      after = [...without, ...runFunction(run, after, hook)];
    }
    return after;
  });
}
