/**
 * The Arduino core's functions as they are in the packaged core (arduino-core-avr 1.8.7), one model per function.
 * Law: a model leaves the state as the real function would, or as something that holds it.
 */
import type { Expression } from "../../program/ir.js";
import { evaluate } from "../evaluate.js";
import { isPureCore } from "../facts.js";
import { exact } from "../inputs.js";
import { WAITING } from "../pulses/core-costs.js";
import type { Run } from "../run.js";
import { spendCore } from "../spending.js";
import type { State } from "../state.js";
import { anything, type Value } from "../value.js";
import { arithmeticModels } from "./arithmetic.js";
import { characterModels } from "./character-functions.js";
import { heapModels } from "./heap.js";
import { interruptModels } from "./interrupt-control.js";
import { forgetBuffers, memoryModels } from "./memory-functions.js";
import { pinModels } from "./pins.js";
import { libraryPinModels } from "./pins-of-libraries.js";
import { programMemoryModels } from "./program-memory.js";
import { servoModels } from "./servo.js";
import { textModels } from "./text-functions.js";
import { timeModels } from "./time.js";
import { toneModels } from "./tone.js";

export interface CoreCall {
  readonly run: Run;
  readonly state: State;
  readonly name: string;
  readonly values: readonly Value[];
  readonly expression: Extract<Expression, { op: "core" }>;
}

/** What a function leaves and gives back; null: a result that is not known (or none at all). */
export type Model = (call: CoreCall) => Value | null;

const MODELS: ReadonlyMap<string, Model> = new Map<string, Model>([
  ...Object.entries(pinModels),
  ...Object.entries(libraryPinModels),
  ...Object.entries(timeModels),
  ...Object.entries(toneModels),
  ...Object.entries(servoModels),
  ...Object.entries(arithmeticModels),
  ...Object.entries(interruptModels),
  ...Object.entries(programMemoryModels),
  ...Object.entries(memoryModels),
  ...Object.entries(textModels),
  ...Object.entries(characterModels),
  ...Object.entries(heapModels),
]);

export function callCore(run: Run, state: State, expression: Extract<Expression, { op: "core" }>): Value {
  const values: Value[] = [];
  // From the last to the first, as the compiler has it (program/evaluation-order.ts).
  for (const argument of [...expression.arguments].reverse()) values.unshift(evaluate(run, state, argument));
  if (!isPureCore(expression.name))
    for (const [index, value] of values.entries()) {
      const { type } = expression.arguments[index]!;
      if ("zeros" in value && value.by !== undefined && type.kind === "integer")
        values[index] = exact(state, value, type.integer);
    }
  if (!WAITING.has(expression.name)) spendCore(run, state, expression);
  const model = MODELS.get(expression.name);
  const call: CoreCall = { run, state, name: expression.name, values, expression };
  if (model === undefined) forgetBuffers(call);
  const result = model?.(call) ?? null;
  return result ?? anything(expression.type);
}
