/** A duty curve in words, as a table, and as a plot of plain characters for a sheet. */
import { toNumber } from "../../shared-model/fraction.js";
import { showShare } from "../look/show.js";
import type { DutyCurve, DutyPoint } from "./duty-curve.js";

/**
 * What a person would not expect, in one line: travel that changes nothing, leaps, values that wrap. Null where the curve is
 * even from end to end.
 */
export function curveLine(curve: DutyCurve): string | null {
  const { points, deadLow, deadHigh, jumps, wraps, input } = curve;
  const what = input === "reading" ? "readings" : "values";
  const last = points.length - 1;
  if (deadLow === last) return `all ${points.length} ${what} give ${level(points)}`;
  const usual = 2 * Math.ceil(points.length / curve.used);
  const low = deadLow > usual ? deadLow : 0;
  const high = deadHigh > usual ? deadHigh : 0;
  const parts: string[] = [];
  if (low > 0) parts.push(dead(points.slice(0, low)));
  if (high > 0) parts.push(dead(points.slice(points.length - high)));
  if (wraps.length > 0) parts.push(`${wraps.length} do not fit the register and wrap, the first at ${wraps[0]}`);
  else {
    for (const { from, to } of jumps.slice(0, 2))
      parts.push(`from ${from.input} to ${to.input} it leaps from ${share(from)} to ${share(to)}`);
  }
  if (parts.length === 0) return null;
  const live = points.slice(low, points.length - high);
  return `${what} ${live[0]!.input}..${live.at(-1)!.input} of ${points[last]!.input} reach ${reached(live)}; ${parts.join("; ")}`;
}

function dead(points: readonly DutyPoint[]): string {
  const count = points.length === 1 ? "1 dead value" : `${points.length} dead values`;
  return `${points[0]!.input}..${points.at(-1)!.input} all give ${level(points)}: ${count}`;
}

/** Of points without a pulse. */
function level(points: readonly DutyPoint[]): string {
  const shares = new Set(points.map(({ duty }) => (duty === null ? null : toNumber(duty))));
  if (shares.has(null)) return "a constant level, above TOP one that the data sheet leaves open";
  const [only] = shares;
  return only === 0 ? "constant low" : only === 1 ? "constant high" : showShare(only ?? 0);
}

function share({ duty }: DutyPoint): string {
  return duty === null ? "a constant level" : showShare(duty);
}

/** `0..100 %` */
function reached(points: readonly DutyPoint[]): string {
  const shares = points.flatMap(({ duty }) => (duty === null ? [] : [toNumber(duty)]));
  const [low, high] = [showShare(Math.min(...shares)), showShare(Math.max(...shares))];
  return low === high ? low : `${low.replace(/ %$/, "")}..${high}`;
}

/** `221 different duties where TOP allows 321` */
export function usedSteps({ used, steps }: DutyCurve): string {
  return `${used} different duties where TOP allows ${steps}`;
}

const MOST_ROWS = 12;

export interface CurveRow {
  readonly input: string;
  readonly value: string;
  readonly duty: string;
}

/** The ends, the edges of dead travel, both sides of leaps, and points between; at most twelve. */
export function curveRows({ points, deadLow, deadHigh, jumps, wraps }: DutyCurve): readonly CurveRow[] {
  const last = points.length - 1;
  const wanted = new Set([0, last]);
  const add = (at: number): void => {
    if (at >= 0 && at <= last && wanted.size < MOST_ROWS) wanted.add(at);
  };
  for (const at of [deadLow, deadLow + 1]) add(at);
  for (const at of [last - deadHigh - 1, last - deadHigh]) add(at);
  if (points[last - deadHigh + 1]?.duty === null) add(last - deadHigh + 1);
  for (const { from, to } of jumps.slice(0, 2)) for (const point of [from, to]) add(points.indexOf(point));
  if (wraps.length > 0) {
    const at = points.findIndex(({ input }) => input === wraps[0]);
    for (const near of [at - 1, at]) add(near);
  }
  for (let quarter = 1; quarter < 4; quarter++) add(Math.round((last * quarter) / 4));
  return [...wanted]
    .sort((a, b) => a - b)
    .map((at) => {
      const point = points[at]!;
      const held = point.by === "port" ? ", the core leaves the timer" : "";
      return { input: String(point.input), value: String(point.value), duty: `${pointDuty(point)}${held}` };
    });
}

function pointDuty(point: DutyPoint): string {
  if (point.duty === null) return "constant, level not known";
  const value = toNumber(point.duty);
  return value === 0 || value === 1 ? level([point]) : showShare(point.duty);
}

const SIGNS: Readonly<Record<string, string>> = {
  "*": "pulse",
  "#": "constant level",
  "?": "constant, level not known",
};

const PLOT_WIDTH = 56;
const PLOT_HEIGHT = 11;

/** Rows of a plot with axes and what its signs mean. Every input is in it: a column shows all duties of its inputs. */
export function curvePlot({ points, input }: DutyCurve): readonly string[] {
  const width = Math.min(PLOT_WIDTH, points.length);
  const grid = Array.from({ length: PLOT_HEIGHT }, () => Array<string>(width).fill(" "));
  points.forEach(({ duty }, at) => {
    const column = Math.floor((at * width) / points.length);
    const mark = (value: number, sign: string): void => {
      grid[PLOT_HEIGHT - 1 - Math.round(value * (PLOT_HEIGHT - 1))]![column] = sign;
    };
    if (duty === null) {
      // Either of the two.
      mark(0, "?");
      mark(1, "?");
      return;
    }
    const value = toNumber(duty);
    mark(value, value === 0 || value === 1 ? "#" : "*");
  });
  const scale = (row: number): string => (row % 5 === 0 ? `${100 - row * 10} %` : "").padStart(6);
  const rows = grid.map((cells, row) => `${scale(row)} |${cells.join("")}`.trimEnd());
  const [first, last] = [String(points[0]!.input), String(points.at(-1)!.input)];
  const gap = Math.max(1, width - first.length - last.length);
  const legend = Object.entries(SIGNS)
    .filter(([sign]) => grid.some((cells) => cells.includes(sign)))
    .map(([sign, words]) => `${sign} ${words}`)
    .join(", ");
  return [
    ...rows,
    `       +${"-".repeat(width)}`,
    `        ${first}${" ".repeat(gap)}${last}  ${input}`,
    `        ${legend}`,
  ];
}
