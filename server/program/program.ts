/** Syntax tree → program: every name resolved, every conversion spelled out, only what can be reached. */

import type { Chip } from "../../shared-model/chip.js";
import type { SyntaxTree } from "../parse/syntax.js";
import type { Preprocessed } from "../preprocess/preprocessed.js";
import { constantsFirst } from "./constant.js";
import { codeOf, lowerWaiting } from "./functions.js";
import { hooksOf } from "./hooks.js";
import type { FunctionCode, Program, Variable } from "./ir.js";
import { Lowering, type RegisterPlace, type WrittenNode } from "./lowering.js";
import { type NumberNamed, numbersNamed } from "./named-constants.js";
import { inNewStyle } from "./old-style.js";
import { markRelevant } from "./relevance.js";
import type { FunctionSymbol } from "./scope.js";
import { declareUnits } from "./units.js";

export interface LoweredProgram extends Program {
  readonly written: readonly (WrittenNode | null)[];
  /** How many cells the recorder of written values needs. */
  readonly traces: number;
  readonly literalNames: readonly { readonly start: number; readonly end: number }[];
  readonly callNames: readonly { readonly name: string; readonly start: number; readonly end: number }[];
  readonly core: boolean;
  /** What a name of the sketch means as a number: for comments. */
  readonly numberNamed: NumberNamed;
}

/** Total: what is not understood becomes gaps, in the program's list or as statements in their place. */
export function lowerProgram(
  tree: SyntaxTree,
  source: Preprocessed,
  chip: Chip,
  pinNames: Readonly<Record<string, number>>,
): LoweredProgram {
  const run = new Lowering(tree.text, source.text, source.map, chip, registerPlaces(chip), source.builtinHeaders, true);
  const { nodes, settled } = inNewStyle(tree);
  const startup = declareUnits(run, nodes, source.units, pinNames);
  // What the units' own tables refer to is no use of theirs.
  const declared = run.functions.length;
  const find = (name: string): FunctionSymbol | undefined => {
    const meaning = run.linker.here(name);
    return meaning?.kind === "functions" ? meaning.set.find((symbol) => symbol.body !== null) : undefined;
  };
  const take = (name: string): FunctionCode | null => {
    const symbol = find(name);
    return symbol === undefined ? null : codeOf(run, symbol);
  };
  const main = take("main");
  const setup = take("setup");
  const loop = take("loop");
  const hooks = hooksOf(run);
  const interrupts: FunctionCode[] = [];
  const routines = [...interruptNames(tree, source)].flatMap((name) => find(name) ?? []);
  for (const routine of routines) if (!routine.ofCore) interrupts.push(codeOf(run, routine));
  lowerWaiting(run);
  // A unit of the core is linked where something of it is used; then its routines are there too.
  for (let more = routines.filter((routine) => routine.ofCore); more.length > 0; ) {
    const linked = more.filter(({ node }) => unitIsUsed(source, run.functions.slice(declared), node.start));
    if (linked.length === 0) break;
    more = more.filter((routine) => !linked.includes(routine));
    for (const routine of linked) interrupts.push(codeOf(run, routine));
    lowerWaiting(run);
  }
  for (const error of tree.errors) {
    // The grammar knows no bit fields and no typed enumerations without a name.
    if (error.missing?.endsWith("_identifier") && /^\s*:/.test(tree.text.slice(error.end, error.end + 80))) continue;
    // A body of empty blocks alone is to it an initialiser (misread.ts).
    if (error.missing === ";" && /\)\s*\{(\s*\{[\s{}]*\})+\s*\}\s*$/.test(tree.text.slice(0, error.end).slice(-80)))
      continue;
    if (error.missing === ";" && settled.has(error.start)) continue;
    run.gap(error, error.missing === null ? "text not understood" : `'${error.missing}' is missing here`);
  }
  const program: Omit<LoweredProgram, "numberNamed"> = {
    startup: { op: "block", body: constantsFirst([...run.startup, ...startup.statements]) },
    startupLocals: startup.locals,
    setup,
    loop,
    main,
    hooks,
    interrupts,
    functions: run.functions,
    globals: run.globals as Variable[],
    gaps: run.gaps,
    registerNames: run.registerNames,
    written: run.written,
    traces: run.traces,
    literalNames: run.literalNames,
    callNames: run.callNames,
    core: main === null,
  };
  markRelevant(program);
  return { ...program, numberNamed: numbersNamed(run, run.unitScopes, program) };
}

const INTERRUPT = /\b__isr_\w+/g;

function unitIsUsed(source: Preprocessed, functions: readonly FunctionCode[], at: number): boolean {
  const unit = source.units.find(({ start, end }) => start <= at && at < end);
  return unit !== undefined && functions.some(({ start }) => unit.start <= start && start < unit.end);
}

function interruptNames(tree: SyntaxTree, source: Preprocessed): Set<string> {
  const names = new Set<string>();
  if (tree.refused === null && source.text.includes("__isr_")) {
    for (const match of source.text.matchAll(INTERRUPT)) names.add(match[0]);
  }
  return names;
}

const cache = new WeakMap<Chip, ReadonlyMap<string, RegisterPlace>>();

/** Every register of the chip by name, 16-bit ones as one. */
export function registerPlaces(chip: Chip): ReadonlyMap<string, RegisterPlace> {
  const known = cache.get(chip);
  if (known !== undefined) return known;
  const places = new Map<string, RegisterPlace>();
  for (const register of chip.registers)
    places.set(register.name, { name: register.name, address: register.address, bits: 8 });
  for (const wide of chip.wide) places.set(wide.name, { name: wide.name, address: wide.address, bits: 16 });
  cache.set(chip, places);
  return places;
}
