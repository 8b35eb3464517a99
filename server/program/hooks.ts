/**
 * Functions of the sketch that the core calls by itself. Source: main.cpp, hooks.c, wiring.c and HardwareSerial.cpp of the
 * packaged core (arduino-core-avr 1.8.7).
 */

import { codeOf } from "./functions.js";
import type { Expression, FunctionCode, Hooks, Statement, Stretch } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import type { FunctionSymbol } from "./scope.js";
import { signatureOf } from "./signatures.js";
import { anything } from "./stand-ins.js";
import { BOOL, UINT32, VOID } from "./types.js";

/** Called between turns of loop where something has come in. */
const EVENTS = ["serialEvent", "serialEvent1", "serialEvent2", "serialEvent3"];

export function hooksOf(run: Lowering): Hooks {
  const take = (name: string): FunctionCode[] => {
    const symbol = linked(run, name);
    return symbol === undefined ? [] : [codeOf(run, symbol)];
  };
  const ownEvents = take("serialEventRun");
  return {
    init: take("init")[0] ?? null,
    beforeSetup: take("initVariant"),
    afterTurn: ownEvents,
    // The core's own serialEventRun is what calls these.
    perhapsAfterTurn: ownEvents.length > 0 ? [] : EVENTS.flatMap(take),
  };
}

/** `delay` calls the sketch's `yield` at its start and again and again while it waits. */
export function delayWithYield(run: Lowering, body: Body, delay: Expression, node: Stretch): Expression {
  const symbol = linked(run, "yield");
  if (symbol === undefined) return delay;
  const code = codeOf(run, symbol);
  const moment: Expression = {
    op: "core",
    name: "__builtin_avr_delay_cycles",
    self: null,
    arguments: [anything(node, UINT32)],
    written: [],
    type: VOID,
    start: node.start,
    end: node.end,
  };
  const wait: Statement = { op: "expression", expression: moment, ...stretch(node) };
  const rounds: Statement = {
    op: "loop",
    before: [],
    condition: anything(node, BOOL),
    body: {
      op: "block",
      body: [
        { op: "call", code, pointer: null, dispatch: null, self: null, arguments: [], result: null, ...stretch(node) },
        wait,
      ],
    },
    step: [],
    bodyFirst: true,
    head: node.end,
    ...stretch(node),
  };
  // The time that passes for certain passes once, after any number of calls; any number more may follow.
  body.out.push(wait, rounds, { op: "expression", expression: delay, ...stretch(node) }, rounds);
  return anything(node, VOID);
}

function stretch({ start, end }: Stretch): Stretch {
  return { start, end };
}

/** A function without parameters that other units see, with a body. */
function linked(run: Lowering, name: string): FunctionSymbol | undefined {
  const meaning = run.linker.here(name);
  if (meaning?.kind !== "functions") return undefined;
  return meaning.set.find((symbol) => symbol.body !== null && signatureOf(run, symbol).parameters.length === 0);
}
