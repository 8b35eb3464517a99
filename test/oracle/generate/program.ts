/** Whole random programs: globals, tables, functions, classes, interrupt routines, setup and loop, in some of the styles. */
import { action, classWithMethod, pureFunction, routine, writeGlobals } from "./declarations.js";
import type { Dice } from "./dice.js";
import { Draft, indent } from "./draft.js";
import type { Lines, TimerFacts } from "./registers.js";
import { Statements } from "./statements.js";
import { STYLES } from "./styles/styles.js";
import { splitIntoFiles } from "./tabs.js";

export interface Program {
  readonly text: string;
  /** Further tabs, headers and sources by name. */
  readonly beside: Readonly<Record<string, string>>;
}

export function writeProgram(dice: Dice, timers: readonly TimerFacts[]): Program {
  const draft = new Draft(dice, timers);
  const statements = new Statements(draft);
  const { body } = draft;
  writeGlobals(draft);
  for (let left = dice.int(0, 3); left > 0; left--) body.push(...pureFunction(draft), "");
  for (const { percent, write } of STYLES) if (dice.chance(percent)) write(draft);
  for (let left = dice.int(0, 4); left > 0; left--) body.push(...action(draft, statements), "");
  if (dice.chance(18)) body.push(...classWithMethod(draft), "");
  const interrupted = draft.start.length > 0;
  if (!interrupted && dice.chance(10)) body.push(...routine(draft), "");
  const setup = [...statements.block(statements.scope(), dice.int(2, 6), true), ...draft.start];
  const loop = [...loopBody(draft, statements), ...draft.turn];
  const ownMain = draft.start.length === 0 && dice.chance(8);
  const functions = ownMain ? ownMainFunction(draft, setup, loop) : [];
  if (!ownMain) functions.push("void setup() {", ...indent(setup), "}", "", "void loop() {", ...indent(loop), "}");
  return splitIntoFiles(draft, functions);
}

function ownMainFunction({ dice, body }: Draft, setup: Lines, loop: Lines): Lines {
  // Without the core's init nothing counts milliseconds: delay() would never end.
  const started = dice.chance(50) || /\bdelay\(/.test([...body, ...setup].join("\n"));
  const turn = started ? loop : loop.filter((line) => !/\bdelay\(/.test(line));
  return [
    "int main() {",
    ...indent([...(started ? ["init();"] : []), ...setup]),
    "  while (1) {",
    ...indent(indent(turn)),
    "  }",
    "}",
  ];
}

function loopBody({ dice }: Draft, statements: Statements): Lines {
  if (dice.chance(35)) return dice.chance(50) ? [] : [`delay(${dice.int(1, 20)});`];
  const lines = statements.block(statements.scope(), dice.int(1, 4), false);
  if (dice.chance(75)) lines.push(`delay(${dice.int(1, 20)});`);
  return lines;
}
