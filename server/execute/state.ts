/**
 * One path's world: memory, registers, and what the core remembers. Law: every real world that this path stands for is
 * described by it. States are changed in place by whoever holds them; `fork` makes an independent copy cheaply.
 */
import type { FunctionCode, Variable } from "../program/ir.js";
import type { Type } from "../program/types.js";
import type { Cells, Content } from "./cells.js";
import * as number from "./domain/number.js";
import type { Counters } from "./hardware/counters.js";
import type { Machine } from "./hardware/machine.js";
import { dependentJoin, eitherInputs, type Inputs } from "./inputs.js";
import { Aggregate, equalAggregates, joinAggregates, type Token } from "./memory.js";
import { type Stopwatch, sameWatch } from "./pulses/stopwatch.js";
import { equal, join, joinPointers, type Target, type Value, widen } from "./value.js";

/** A condition that the path has taken, in the sketch's own words. */
export interface Condition {
  readonly start: number;
  readonly end: number;
  readonly holds: boolean;
  readonly parent: Condition | null;
  readonly depth: number;
  /** An interrupt routine's name, where it is its having run that matters. */
  readonly routine: string | null;
  /** The label taken, where the stretch is a switch's value. */
  readonly label: number | null;
}

/** What the core keeps to itself between calls. */
export interface CoreState {
  /** The pin that tone() has taken (board number); -1: none, null: not known. */
  readonly tonePin: number | null;
  /** True where the tone ends by itself after a while. */
  readonly toneEnds: boolean;
  /** Routines given to attachInterrupt. */
  readonly attached: readonly FunctionCode[];
  /** Pins given to Servo.attach (null: one that is not known). */
  readonly servoPins: readonly (number | null)[];
  /** The text that strtok goes on with; null: any. */
  readonly tokens: readonly Target[] | null;
}

export const FRESH_CORE: CoreState = { tonePin: -1, toneEnds: false, attached: [], servoPins: [], tokens: [] };

const DEPTHS = 256;

/** The identity of one activation's variable. */
export function objectOf(variable: Variable, depth: number): number {
  return variable.id * DEPTHS + (variable.storage === "global" ? 0 : depth);
}

export class State {
  token: Token = {};
  conditions: Condition | null = null;
  /** Under which conditions each timer's registers were last written, by the timer's index; none is like all null. */
  private made: readonly (Condition | null)[] = [];
  /** Depth of calls; locals of different activations are told apart by it. */
  depth = 1;
  /** Upper bound of CPU cycles spent since the last settled point. */
  cycles = 0;
  /** True once time has passed: the timers' phase is no longer known. */
  timePassed = false;
  core: CoreState = FRESH_CORE;
  /** Set where time passed inside the expression being evaluated: interrupt routines are still to be let in. */
  due = false;
  /** What is known of expressions while one branch of a conditional expression is evaluated; null outside of such. */
  facts: Map<string, number.AbstractInteger> | null = null;
  /** Readings that values depend on, where the path restricts them (inputs.ts). */
  inputs: Inputs | null = null;
  /** Values may depend on readings. */
  depends = false;
  /** The memory when readings were last forgotten: nothing in it depends on any. */
  plainMemory: Cells | null = null;
  /** CPU cycles that the last wait surely took. */
  waited = 0;
  /** Timers whose counter the main program has surely set while it counts, since the turn began: a bit each. */
  countersSet = 0;
  /** Runs while pulses are timed. */
  stopwatch: Stopwatch | null = null;
  /** Where the timers' counters stand, while the sketch starts up and it can be told. */
  counters: Counters | null = null;
  /** Set where the path never goes on from: an endless wait. */
  ended = false;

  constructor(
    readonly memory: Cells,
    public machine: Machine,
  ) {}

  fork(): State {
    const copy = new State(this.memory.copy(), this.machine.fork());
    copy.conditions = this.conditions;
    copy.made = this.made;
    copy.depth = this.depth;
    copy.cycles = this.cycles;
    copy.timePassed = this.timePassed;
    copy.core = this.core;
    copy.due = this.due;
    copy.waited = this.waited;
    copy.countersSet = this.countersSet;
    copy.facts = this.facts;
    copy.inputs = this.inputs;
    copy.depends = this.depends;
    copy.plainMemory = this.plainMemory;
    if (this.stopwatch !== null) copy.stopwatch = this.stopwatch.copy();
    if (this.counters !== null) copy.counters = this.counters.copy();
    this.token = {};
    return copy;
  }

  /** The aggregate of an object, ready to be changed. */
  ownAggregate(object: number): Aggregate {
    const present = this.memory.get(object);
    if (present instanceof Aggregate) {
      if (present.token === this.token) return present;
      const copy = present.copy(this.token);
      this.memory.set(object, copy);
      return copy;
    }
    const made = new Aggregate(new Map(), "unknown", null, this.token);
    this.memory.set(object, made);
    return made;
  }

  assumeCondition(start: number, end: number, holds: boolean): void {
    this.push({ start, end, holds, routine: null, label: null });
  }

  /** The path took the case `label` of a switch over the value at `start … end`. */
  assumeCase(start: number, end: number, label: number): void {
    this.push({ start, end, holds: true, routine: null, label });
  }

  private push(condition: Omit<Condition, "parent" | "depth">): void {
    const { start, end, holds, routine, label } = condition;
    const parent = this.conditions;
    this.conditions = { start, end, holds, routine, label, parent, depth: parent === null ? 1 : parent.depth + 1 };
  }

  /** A register of the timer was written here. */
  noteMade(timer: number): void {
    if ((this.made[timer] ?? null) === this.conditions) return;
    const made = [...this.made];
    while (made.length < timer) made.push(null);
    made[timer] = this.conditions;
    this.made = made;
  }

  /** The conditions to which the timer's present state goes back: they may be those of an earlier turn. */
  madeUnder(timer: number): Condition | null {
    return this.made[timer] ?? null;
  }

  absorbMade(other: State): void {
    if (this.made === other.made) return;
    const length = Math.min(this.made.length, other.made.length);
    this.made = Array.from({ length }, (_, at) => commonConditions(this.made[at] ?? null, other.made[at] ?? null));
  }

  inRoutine(routine: string, start: number): void {
    this.push({ start, end: start, holds: true, routine, label: null });
  }
}

/** The conditions that both paths took. */
export function commonConditions(a: Condition | null, b: Condition | null): Condition | null {
  let left = a;
  let right = b;
  while (!alike(left, right)) {
    if (left === null || right === null) return null;
    if (left.depth > right.depth) left = left.parent;
    else if (right.depth > left.depth) right = right.parent;
    else {
      left = left.parent;
      right = right.parent;
    }
  }
  return left;
}

/** The same conditions, though perhaps of another turn. */
function alike(a: Condition | null, b: Condition | null): boolean {
  let left = a;
  let right = b;
  while (left !== right) {
    if (left === null || right === null || left.depth !== right.depth) return false;
    if (left.start !== right.start || left.end !== right.end || left.holds !== right.holds) return false;
    if (left.routine !== right.routine || left.label !== right.label) return false;
    left = left.parent;
    right = right.parent;
  }
  return true;
}

export interface Combine {
  /** Bounds on times that grow are given up. */
  readonly widensTimes: boolean;
  /** `landmarks`: where the variable is likely to stop growing. */
  value(before: Value, after: Value, type: Type, landmarks?: readonly number[]): Value;
  register(
    before: number.AbstractInteger,
    after: number.AbstractInteger,
    type: number.IntegerType,
  ): number.AbstractInteger;
}

/** Rounds for which registers are only joined. */
const FOLLOWING_ROUNDS = 9;

export const JOIN: Combine = {
  widensTimes: false,
  value: (before, after) => join(before, after),
  register: (before, after) => number.join(before, after),
};

export function widening(round: number): Combine {
  return {
    widensTimes: true,
    value: (before, after, type, landmarks) => widen(before, join(before, after), round, type, landmarks),
    // Registers follow variables as a rule, and come to rest when these do.
    register: (before, after, type) =>
      round < FOLLOWING_ROUNDS
        ? number.join(before, after)
        : number.widen(before, number.join(before, after), round, type),
  };
}

/** Lets `into` stand for `other` too. `variables` gives the type behind an object. */
export function absorb(into: State, other: State, combine: Combine, variables: ReadonlyMap<number, Variable>): void {
  if (into === other) return;
  const { inputs } = into;
  const value: Combine["value"] =
    inputs === null || other.inputs === null || combine.widensTimes
      ? combine.value
      : (before, after, type) => dependentJoin(combine.value(before, after, type), before, after, inputs, other.inputs);
  into.memory.differences(other.memory, (object, before, after) => {
    if (before === undefined) return true;
    if (after === undefined) {
      // Not alive on the other path: nothing is known of it on both.
      into.memory.delete(object);
    } else if (before instanceof Aggregate || after instanceof Aggregate) {
      if (before instanceof Aggregate && after instanceof Aggregate) {
        if (!equalAggregates(before, after)) {
          const landmarks = variables.get(Math.floor(object / DEPTHS))?.landmarks;
          const cell: Combine["value"] = landmarks === undefined ? value : (a, b, type) => value(a, b, type, landmarks);
          into.memory.set(object, joinAggregates(before, after, into.token, cell));
        }
      } else into.memory.delete(object);
    } else if (!equal(before, after)) {
      const variable = variables.get(Math.floor(object / DEPTHS));
      into.memory.set(
        object,
        variable === undefined ? join(before, after) : value(before, after, variable.type, variable.landmarks),
      );
    }
    return true;
  });
  into.inputs = eitherInputs(inputs, other.inputs);
  into.depends ||= other.depends;
  into.machine.absorb(other.machine, combine.register);
  into.conditions = commonConditions(into.conditions, other.conditions);
  into.absorbMade(other);
  into.cycles = Math.max(into.cycles, other.cycles);
  into.countersSet &= other.countersSet;
  into.timePassed ||= other.timePassed;
  if (into.stopwatch !== null && other.stopwatch !== null) into.stopwatch.absorb(other.stopwatch, combine.widensTimes);
  if (into.counters !== null && other.counters !== null) into.counters.absorb(other.counters);
  else into.counters = null;
  if (into.core !== other.core) into.core = joinCores(into.core, other.core);
}

/** Lets `into` stand for `other` too, where the two can differ in the hardware alone. */
export function absorbHardware(into: State, other: State): void {
  into.machine.absorb(other.machine, JOIN.register);
  if (into.stopwatch !== null && other.stopwatch !== null) into.stopwatch.absorb(other.stopwatch, false);
  into.counters = null;
}

function joinCores(a: CoreState, b: CoreState): CoreState {
  return {
    tonePin: a.tonePin === b.tonePin ? a.tonePin : null,
    toneEnds: a.toneEnds || b.toneEnds,
    attached: [...new Set([...a.attached, ...b.attached])],
    servoPins: [...new Set([...a.servoPins, ...b.servoPins])],
    tokens: joinPointers({ targets: a.tokens, mayBeNull: true }, { targets: b.tokens, mayBeNull: true }).targets,
  };
}

export function sameCores(a: CoreState, b: CoreState): boolean {
  if (a === b) return true;
  return (
    a.tonePin === b.tonePin &&
    a.toneEnds === b.toneEnds &&
    a.attached.length === b.attached.length &&
    a.attached.every((code) => b.attached.includes(code)) &&
    a.servoPins.length === b.servoPins.length &&
    a.servoPins.every((pin) => b.servoPins.includes(pin)) &&
    equal({ targets: a.tokens, mayBeNull: true }, { targets: b.tokens, mayBeNull: true })
  );
}

/** True where the two differ in nothing that can decide what the pins do. */
export function sameForPins(a: State, b: State, variables: ReadonlyMap<number, Variable>): boolean {
  if (a.inputs !== b.inputs || !a.machine.equals(b.machine) || !sameCores(a.core, b.core)) return false;
  return sameRelevantMemory(a, b, variables);
}

export function sameRelevantMemory(a: State, b: State, variables: ReadonlyMap<number, Variable>): boolean {
  return a.memory.differences(b.memory, (object, left, right) => {
    if (variables.get(Math.floor(object / DEPTHS))?.relevant === false) return true;
    return sameContent(left, right);
  });
}

function sameContent(left: Content | undefined, right: Content | undefined): boolean {
  if (left === undefined || right === undefined) return false;
  if (left instanceof Aggregate || right instanceof Aggregate) {
    return left instanceof Aggregate && right instanceof Aggregate && equalAggregates(left, right);
  }
  return equal(left, right);
}

/** True where everything, relevant or not, is the same. */
export function sameState(a: State, b: State): boolean {
  if (a.inputs !== b.inputs || !a.machine.equals(b.machine) || !sameCores(a.core, b.core)) return false;
  if (!sameWatch(a.stopwatch, b.stopwatch)) return false;
  return a.memory.differences(b.memory, (_, left, right) => sameContent(left, right));
}

/** True where `inner` stands for nothing that `outer` does not. */
export function covered(inner: State, outer: State, variables: ReadonlyMap<number, Variable>): boolean {
  const joined = outer.fork();
  absorb(joined, inner, JOIN, variables);
  return sameState(joined, outer);
}
