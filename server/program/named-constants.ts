/**
 * Numbers that a sketch gives a name: what `fanPin`, `Pins::fan` or `Board::FAN` means to somebody who reads the sketch. Law:
 * only what has that one value as long as the program runs.
 */
import type { Expression, FunctionCode, Place, Program, Statement, Variable } from "./ir.js";
import type { Lowering } from "./lowering.js";
import { scopeOfType } from "./qualified-names.js";
import type { Meaning, Scope } from "./scope.js";

/** The number; null where the name means none. A function's own constants go before those of the file. */
export type NumberNamed = (name: string, within: FunctionCode | null) => number | null;

export function numbersNamed(run: Lowering, units: readonly Scope[], program: Program): NumberNamed {
  let changed: ReadonlySet<Variable> | null = null;
  /** A variable without const that nobody sets but its own initialiser: `int fanPin = 9;`. */
  const untouched = (variable: Variable): number | null => {
    if (variable.storage !== "global" || variable.addressTaken || variable.volatile) return null;
    const value = initialValue(program.startup, variable);
    if (value === null) return null;
    changed ??= changedVariables(program);
    return changed.has(variable) ? null : value;
  };
  const numberOf = (meaning: Meaning | undefined): number | null => {
    if (meaning?.kind === "constant") return meaning.value;
    if (meaning?.kind !== "variable") return null;
    return meaning.variable.known ?? untouched(meaning.variable);
  };
  return (name, within) => {
    const local = within?.locals.filter((variable) => variable.name === name && variable.known !== undefined) ?? [];
    const values = new Set(local.map((variable) => variable.known!));
    if (values.size === 1) return local[0]!.known!;
    for (const unit of units) {
      const found = numberOf(findPath(run, unit, name.split("::")));
      if (found !== null) return found;
    }
    return null;
  };
}

function findPath(run: Lowering, unit: Scope, parts: readonly string[]): Meaning | undefined {
  let meaning = unit.find(parts[0]!);
  for (const part of parts.slice(1)) {
    const inside: Scope | null =
      meaning?.kind === "namespace" ? meaning.scope : meaning?.kind === "type" ? scopeOfType(run, meaning.type) : null;
    meaning = inside?.own(part);
  }
  return meaning;
}

/** What the variable holds from the start, where that is one integer. */
function initialValue(startup: Statement, variable: Variable): number | null {
  let value: number | null = null;
  const visit = (statement: Statement): void => {
    if (statement.op === "block") for (const part of statement.body) visit(part);
    if (statement.op !== "initialise" || statement.target.op !== "variable" || statement.target.variable !== variable)
      return;
    value = integerOf(statement.value);
  };
  visit(startup);
  return value;
}

function integerOf(expression: Expression): number | null {
  if (expression.op === "integer") return Number(expression.value);
  return expression.op === "convert" || expression.op === "traced" ? integerOf(expression.operand) : null;
}

/** Every variable that anything but its initialiser before the start sets. */
function changedVariables(program: Program): ReadonlySet<Variable> {
  const changed = new Set<Variable>();
  const visit = (node: unknown): void => {
    if (typeof node !== "object" || node === null) return;
    if (Array.isArray(node)) {
      for (const part of node) visit(part);
      return;
    }
    const { op, target, result } = node as { op?: string; target?: Place; result?: Variable | null };
    if (op === undefined && !("body" in node)) return;
    const root = target === undefined ? null : rootOf(target);
    if (root !== null) changed.add(root);
    if (op === "call" && result != null) changed.add(result);
    for (const [key, part] of Object.entries(node)) if (!ELSEWHERE.has(key)) visit(part);
  };
  for (const code of program.functions) visit(code.body);
  return changed;
}

/** Keys under which a statement or expression names something that is not part of it. */
const ELSEWHERE: ReadonlySet<string> = new Set([
  "variable",
  "code",
  "dispatch",
  "type",
  "object",
  "flag",
  "result",
  "record",
]);

function rootOf(place: Place): Variable | null {
  switch (place.op) {
    case "variable":
    case "temporary":
      return place.variable;
    case "index":
    case "member":
      return rootOf(place.base);
    default:
      return null;
  }
}
