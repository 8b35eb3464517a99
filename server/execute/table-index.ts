/**
 * `TCCR1B = base | scales[at]; OCR1A = tops[at];`: registers that are set through one variable with a few values belong
 * together. Where such a variable decides how a timer runs, its values are followed apart, each with its condition. Law:
 * the states that come out stand for what went in, no more and no less.
 */
import type { Expression } from "../program/ir.js";
import * as number from "./domain/number.js";
import { Aggregate } from "./memory.js";
import type { Run } from "./run.js";
import { objectOf, type State } from "./state.js";

/** Values that are told apart, and states that may come of it. */
const MOST_VALUES = 8;

type Load = Extract<Expression, { op: "load" }>;

/** The states that enter a write to a register of a timer's settings, one for each value of the variable that chooses. */
export function apartByValue(run: Run, states: State[], expression: Expression): State[] {
  if (expression.op !== "assign" || expression.target.op !== "register") return states;
  if (!isSetting(states[0], expression.target.address)) return states;
  const loads = loadsOf(expression);
  if (loads.length === 0) return states;
  return states.flatMap((state) => {
    const choosing = distinct(loads.filter((load) => hasFew(run, state, load)));
    const [load] = choosing;
    if (load === undefined || choosing.length > 1) return [state];
    const values = loadedValue(state, load)!.values!;
    if (states.length * values.length > run.limits.states) return [state];
    return values.map((value) => {
      const path = state.fork();
      path.memory.set(objectIn(path, load), number.constant(value, integerOf(load)!));
      path.assumeCase(load.start, load.end, value);
      return path;
    });
  });
}

/** Control registers, and those that hold TOP or may come to hold it. */
function isSetting(state: State | undefined, address: number): boolean {
  const role = state?.machine.layout.roles[address];
  if (role?.kind === "control" || role?.kind === "capture") return true;
  return role?.kind === "compare" && role.channel === role.timer.channels[0];
}

const loads = new WeakMap<Expression, readonly Load[]>();

/** Plain variables that the value is worked out of. */
function loadsOf(expression: Extract<Expression, { op: "assign" }>): readonly Load[] {
  const known = loads.get(expression);
  if (known !== undefined) return known;
  const found: Load[] = [];
  collect(expression.asked ?? expression.value, found);
  loads.set(expression, found);
  return found;
}

function collect(expression: Expression, found: Load[]): void {
  switch (expression.op) {
    case "load": {
      const { place } = expression;
      if (place.op === "variable") found.push(expression);
      else if (place.op === "index") collect(place.index, found);
      else if (place.op === "member" && place.base.op === "index") collect(place.base.index, found);
      return;
    }
    case "convert":
    case "traced":
    case "negate":
    case "complement":
      collect(expression.operand, found);
      return;
    case "binary":
      collect(expression.left, found);
      collect(expression.right, found);
      return;
    case "offset":
      collect(expression.count, found);
      return;
    case "core":
      if (expression.name.startsWith("pgm_read")) for (const argument of expression.arguments) collect(argument, found);
      return;
    case "address":
      if (expression.place.op === "index") collect(expression.place.index, found);
      return;
    default:
  }
}

function distinct(list: readonly Load[]): Load[] {
  const byVariable = new Map(list.map((load) => [load.place.op === "variable" ? load.place.variable.id : -1, load]));
  return [...byVariable.values()];
}

function hasFew(run: Run, state: State, load: Load): boolean {
  if (load.place.op !== "variable" || load.place.variable.volatile) return false;
  if (run.interference.has(objectIn(state, load))) return false;
  const values = loadedValue(state, load)?.values ?? null;
  return values !== null && values.length > 1 && values.length <= MOST_VALUES;
}

function objectIn(state: State, load: Load): number {
  return load.place.op === "variable" ? objectOf(load.place.variable, state.depth) : -1;
}

function loadedValue(state: State, load: Load): number.AbstractInteger | null {
  const content = state.memory.get(objectIn(state, load));
  if (content === undefined || content instanceof Aggregate || !("zeros" in content)) return null;
  return integerOf(load) === null ? null : content;
}

function integerOf(load: Load): number.IntegerType | null {
  return load.place.type.kind === "integer" ? load.place.type.integer : null;
}
