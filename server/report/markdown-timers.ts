/** The timers of a sheet for paper: the registers of every state, as the CPU reads them back. */
import type { ReportedRegister, ReportedTimer, ReportedTimerState } from "../../shared-model/report.js";
import type { Analysis } from "../analysis.js";
import { isCount } from "../features/write-facts.js";
import { fieldsOf } from "../look/register-fields.js";
import { showHex } from "../look/show.js";
import type { SheetParts } from "./markdown.js";
import { code, codeCell, lines, message, table } from "./markdown-words.js";

/** States side by side in one table: two fit an upright page with the names of their bits. */
const SIDE_BY_SIDE = 2;
/** States of one timer that are printed; the JSON has them all. */
const MOST_STATES = 12;

interface PrintedState {
  readonly regimes: string;
  readonly mode: string;
  readonly when: readonly string[];
  readonly registers: ReportedTimerState["registers"];
}

export function timerSections(parts: SheetParts): string[][] {
  const { reported, analysis, heading } = parts;
  const touched = reported.timers.filter(({ timer }) => isTouched(analysis, timer));
  const left = reported.timers.filter((timer) => !touched.includes(timer) && timer.states.length > 0);
  if (touched.length === 0 && left.length === 0) return [];
  return [
    [heading(1, "Timers")],
    ...touched.flatMap((timer) => timerSection(timer, parts)),
    ...(left.length === 0 ? [] : [left.flatMap((timer) => untouched(timer, parts))]),
  ];
}

/** Whether anything of the sketch set the timer, as opposed to the core's init. */
function isTouched({ timers }: Analysis, timer: number): boolean {
  return timers.some((history) => history.timer === timer && history.states.some((state) => state.from.length > 0));
}

function timerSection(timer: ReportedTimer, { analysis, heading, paths }: SheetParts): string[][] {
  const states = printedStates(timer.states);
  const shown = states.slice(0, MOST_STATES);
  const blocks: string[][] = [[heading(2, `Timer ${timer.timer}`)]];
  for (let from = 0; from < shown.length; from += SIDE_BY_SIDE) {
    const group = shown.slice(from, from + SIDE_BY_SIDE);
    blocks.push(
      group.flatMap((state, at) => {
        const when =
          state.when.length === 0 ? "" : `, when ${state.when.map((each) => paths.clean(each)).join(" or ")}`;
        return lines(`State ${from + at + 1}, ${state.regimes}: ${message(`${state.mode}${when}`)}.`, "- ");
      }),
      registerTable(group, from, analysis),
    );
  }
  if (states.length > shown.length)
    blocks.push(lines(`${states.length - shown.length} more states: ${code("--format json")} lists all of them.`));
  return blocks;
}

/** States that differ in nothing but regime or condition are printed once. */
function printedStates(states: readonly ReportedTimerState[]): PrintedState[] {
  const byRegisters = new Map<string, { state: ReportedTimerState; regimes: Set<string>; when: Set<string | null> }>();
  for (const state of states) {
    const key = JSON.stringify([state.mode, state.registers]);
    const known = byRegisters.get(key) ?? { state, regimes: new Set(), when: new Set() };
    known.regimes.add(state.regime);
    known.when.add(state.when);
    byRegisters.set(key, known);
  }
  // What lasts comes first, as with the pins.
  return [...byRegisters.values()]
    .map(({ state, regimes, when }) => ({
      regimes: regimes.size === 2 ? "always" : state.regime,
      mode: state.mode,
      // A state that also stands without a condition has none.
      when: when.has(null) ? [] : [...when].flatMap((each) => each ?? []),
      registers: state.registers,
    }))
    .sort((left, right) => Number(left.regimes === "setup") - Number(right.regimes === "setup"));
}

function registerTable(states: readonly PrintedState[], from: number, analysis: Analysis): string[] {
  const names = Object.keys(states[0]?.registers ?? {});
  const heads = ["Register", ...states.map((_, at) => `State ${from + at + 1}`)];
  return table(
    heads,
    names.map((name) => [
      codeCell(name),
      ...states.map((state) => registerCell(name, state.registers[name]!, analysis)),
    ]),
  );
}

/** `0x82 COM1A1 WGM11` for settings, `64..400` for counts. */
function registerCell(name: string, value: ReportedRegister, { target }: Analysis): string {
  if (isCount(target.chip, name)) return countCell(value);
  if (!("values" in value)) return codeCell(value.bits);
  if (value.values.length > 1)
    return value.values.slice(0, 4).map(hex).join(", ") + (value.values.length > 4 ? " …" : "");
  const [only = 0] = value.values;
  const set = fieldsOf(target.chip, name).flatMap((field) =>
    field.bits.filter((_, at) => (only >> (field.shift + field.width - 1 - at)) & 1),
  );
  return [hex(only), ...set].join(" ");
}

function hex(value: number): string {
  return codeCell(showHex(value));
}

function countCell(value: ReportedRegister): string {
  if (!("values" in value)) return `${value.min}..${value.max}`;
  const { values } = value;
  return values.length > 4 ? `${values[0]}..${values[values.length - 1]}` : values.join(", ");
}

/** A timer that only the core's init has set: one entry. */
function untouched(timer: ReportedTimer, { analysis }: SheetParts): string[] {
  const state = timer.states.find(({ regime }) => regime === "running") ?? timer.states[0]!;
  const by = analysis.core ? "as the core's init leaves it" : "as it is after reset";
  const registers = Object.entries(state.registers)
    .filter(([name, value]) => !isCount(analysis.target.chip, name) || countCell(value) !== "0")
    .map(([name, value]) => `${name} ${isCount(analysis.target.chip, name) ? countCell(value) : settingWord(value)}`)
    .join(", ");
  return lines(`Timer ${timer.timer}, ${by}: ${message(state.mode)} (${registers}).`, "- ");
}

function settingWord(value: ReportedRegister): string {
  return "values" in value ? value.values.map((each) => showHex(each)).join(" or ") : value.bits;
}
