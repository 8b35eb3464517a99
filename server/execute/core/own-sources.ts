/**
 * The core's own sources, executed. Law: what a function of the core does, the sketch's call of it did: its writes, its
 * conditions and the list of calls speak of that call, as those of the built-in model do.
 */
import type { FunctionCode, Statement } from "../../program/ir.js";
import { runBody, runFunction } from "../calls.js";
import type { CallRecord } from "../collect.js";
import type { TimerSlot } from "../hardware/layout.js";
import { Aggregate } from "../memory.js";
import type { Run } from "../run.js";
import { snapshotOf } from "../snapshot.js";
import { objectOf, type State } from "../state.js";
import type { Value } from "../value.js";
import { INIT_SITE, settleClocks, watchStart } from "./init.js";
import { meantBy } from "./pins.js";

type CallStatement = Extract<Statement, { op: "call" }>;

/** Functions whose first argument is a pin. */
const OF_PINS = new Set(["pinMode", "digitalWrite", "analogWrite"]);

/** Runs a function of the core that the sketch calls, on states that have entered it. */
export function runOfCore(run: Run, states: State[], callee: FunctionCode, statement: CallStatement): State[] {
  const { start, end } = statement;
  const listing = listed(run, states, callee, statement);
  run.behalf = { start, end, operator: "core" };
  run.byDuty = listing?.byDuty ?? false;
  const after = runBody(run, states, callee, start);
  run.byDuty = false;
  run.behalf = null;
  const first = after[0];
  if (listing?.timer != null && first !== undefined && after.length === 1) {
    const { record, timer, before } = listing;
    run.collector.effect(record, before!, snapshotOf(first.machine, timer), first.conditions);
  }
  return after;
}

interface Listing {
  readonly record: CallRecord;
  /** The timer whose pin it is about, where that is one. */
  readonly timer: TimerSlot | null;
  readonly before: ReturnType<typeof snapshotOf> | null;
  readonly byDuty: boolean;
}

function listed(
  run: Run,
  states: State[],
  callee: FunctionCode,
  { listed, start, end }: CallStatement,
): Listing | null {
  if (listed === undefined) return null;
  let record: CallRecord | null = null;
  const timers = new Set<TimerSlot>();
  for (const state of states) {
    const values = callee.parameters.flatMap((parameter): Value[] => {
      const value = state.memory.get(objectOf(parameter, state.depth));
      return value === undefined || value instanceof Aggregate ? [] : [value];
    });
    record = run.collector.call(run, listed.name, start, end, listed.written, values);
    for (const pin of meantBy(run, values[0])) {
      record.pins.add(pin.pin.number);
      if (OF_PINS.has(listed.name) && pin.channel !== null) timers.add(run.layout.timers[pin.channel.timer]!);
    }
    if (!OF_PINS.has(listed.name)) record.timers.add(2);
  }
  if (record === null) return null;
  for (const timer of timers) record.timers.add(timer.fact.number);
  const timer = states.length === 1 && timers.size === 1 ? [...timers][0]! : null;
  const before = timer === null ? null : snapshotOf(states[0]!.machine, timer);
  return { record, timer, before, byDuty: listed.name === "analogWrite" && timers.size > 0 };
}

/** The core's init, before setup: no place of the sketch's. */
export function startByOwnSources(run: Run, states: State[], init: FunctionCode): State[] {
  const seen = states.length === 1 ? watchStart(run, states[0]!) : null;
  run.behalf = { start: INIT_SITE, end: INIT_SITE, operator: "init" };
  const after = runFunction(run, states, init);
  run.behalf = null;
  for (const state of after) {
    if (after.length === 1) seen?.(state);
    settleClocks(run, state);
  }
  return after;
}
