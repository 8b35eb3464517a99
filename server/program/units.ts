/**
 * Translation units. Law: a name means what its own unit declares; units speak of the same thing only where linkage says
 * so. Each unit has a scope of its own; the linker's scope holds what they share.
 */
import type { SyntaxNode } from "../parse/syntax.js";
import type { Preprocessed } from "../preprocess/preprocessed.js";
import { announceFunctions, declareAll } from "./declarations.js";
import type { Statement, Variable } from "./ir.js";
import { type Lowering, scratchBody } from "./lowering.js";
import { Scope } from "./scope.js";
import { UINT8 } from "./types.js";

export interface Startup {
  readonly statements: readonly Statement[];
  readonly locals: readonly Variable[];
}

interface Constructors {
  readonly path: string;
  /** Of the sketch, not of a library or the core. */
  readonly own: boolean;
  readonly statements: readonly Statement[];
}

type UnitText = Preprocessed["units"][number];

/** Declares everything in all units; gives what runs before main. `pinNames`: constants that every unit sees. */
export function declareUnits(
  run: Lowering,
  nodes: readonly SyntaxNode[],
  units: readonly UnitText[],
  pinNames: Readonly<Record<string, number>>,
): Startup {
  run.pinNames = pinNames;
  const builtin = new Scope(null, "namespace");
  // In C what nobody declared is found by the linker all the same.
  const builtinInC = new Scope(run.linker, "namespace");
  // Arduino.h and the board's pins file declare A0, SS, SDA … as constants of type uint8_t.
  for (const [name, value] of Object.entries(pinNames)) {
    for (const scope of [builtin, builtinInC]) scope.declare(name, { kind: "constant", value, type: UINT8 });
  }
  const constructors: Constructors[] = [];
  const locals: Variable[] = [];
  let at = 0;
  for (const [index, unit] of units.entries()) {
    const own: SyntaxNode[] = [];
    const last = index === units.length - 1;
    for (; at < nodes.length && (last || nodes[at]!.start < unit.end); at++) own.push(nodes[at]!);
    const scope = new Scope(unit.c ? builtinInC : builtin, "global");
    scope.shared = run.linker;
    run.unit = unit;
    const startup = scratchBody(run, scope);
    announceFunctions(run, scope, own);
    declareAll(run, scope, own, startup);
    scope.later = null;
    constructors.push({ path: unit.path, own: unit.kind === "sketch", statements: startup.out });
    locals.push(...startup.code.locals);
    if (unit.kind === "sketch") run.unitScopes.push(scope);
  }
  run.unit = null;
  return { statements: inOrderOfStart(constructors), locals };
}

/**
 * The linker puts the sketch's units in the order of their names, the tabs as `fan.ino.cpp`, then those of libraries; the
 * start-up code goes through the constructors from the last to the first (libgcc, __do_global_ctors).
 */
function inOrderOfStart(units: readonly Constructors[]): Statement[] {
  const linkedAs = (path: string): string => (/\.(?:ino|pde)$/i.test(path) ? `${path}.cpp` : path);
  const own = units.filter((unit) => unit.own);
  own.sort((a, b) => (linkedAs(a.path) < linkedAs(b.path) ? -1 : 1));
  const linked = [...own, ...units.filter((unit) => !unit.own)];
  return linked.reverse().flatMap((unit) => unit.statements);
}
