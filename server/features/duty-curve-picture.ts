/**
 * A duty curve as a picture: SVG that takes its colour from the text around it and has no ground of its own, so that it reads
 * on light and dark alike.
 */
import { toNumber } from "../../shared-model/fraction.js";
import type { DutyCurve, DutyPoint } from "./duty-curve.js";
import { curveLine } from "./duty-curve-text.js";

const WIDTH = 360;
const HEIGHT = 200;
const LEFT = 44;
const RIGHT = 12;
const TOP = 12;
const BOTTOM = 32;

export function curvePicture(curve: DutyCurve): string {
  const { points, deadLow, deadHigh, label, input } = curve;
  const [first, last] = [points[0]!, points.at(-1)!];
  const span = Math.max(1, last.input - first.input);
  const x = (value: number): number => round(LEFT + ((value - first.input) / span) * (WIDTH - LEFT - RIGHT));
  const y = (share: number): number => round(TOP + (1 - share) * (HEIGHT - TOP - BOTTOM));
  const zone = (from: number, to: number): string => {
    const width = round(x(to) - x(from));
    return `<rect x="${x(from)}" y="${TOP}" width="${width}" height="${HEIGHT - TOP - BOTTOM}" fill="currentColor" fill-opacity="0.12"/>`;
  };
  const dead = [
    ...(deadLow > 0 ? [zone(first.input, points[deadLow]!.input)] : []),
    ...(deadHigh > 0 ? [zone(points[points.length - 1 - deadHigh]!.input, last.input)] : []),
  ];
  const text = (at: number, height: number, anchor: string, words: string): string =>
    `<text x="${at}" y="${height}" text-anchor="${anchor}">${escaped(words)}</text>`;
  const title = `${label}: duty over ${input}${curveLine(curve) === null ? "" : `; ${curveLine(curve)}`}`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" font-family="sans-serif" font-size="11">`,
    `<title>${escaped(title)}</title>`,
    ...dead,
    `<g fill="none" stroke="currentColor" stroke-opacity="0.5">`,
    `<path d="M${LEFT} ${TOP}V${y(0)}H${WIDTH - RIGHT}"/>`,
    `<path stroke-dasharray="2 4" d="M${LEFT} ${y(0.5)}H${WIDTH - RIGHT}M${LEFT} ${y(1)}H${WIDTH - RIGHT}"/>`,
    "</g>",
    `<path fill="none" stroke="currentColor" stroke-width="1.5" stroke-linejoin="round" d="${outline(points, x, y)}"/>`,
    `<g fill="currentColor">`,
    ...[0, 0.5, 1].map((share) => text(LEFT - 6, y(share) + 4, "end", `${share * 100} %`)),
    text(LEFT, HEIGHT - BOTTOM + 16, "start", String(first.input)),
    text(WIDTH - RIGHT, HEIGHT - BOTTOM + 16, "end", String(last.input)),
    text((LEFT + WIDTH - RIGHT) / 2, HEIGHT - 6, "middle", input),
    "</g>",
    "</svg>",
  ].join("");
}

/** A line through the points; broken where the level is not known. */
function outline(points: readonly DutyPoint[], x: (input: number) => number, y: (share: number) => number): string {
  let path = "";
  let pen: "up" | "down" = "up";
  points.forEach((point, at) => {
    if (point.duty === null) {
      pen = "up";
      return;
    }
    const [before, after] = [points[at - 1]?.duty, points[at + 1]?.duty];
    const share = toNumber(point.duty);
    const even = before != null && after != null && toNumber(before) === share && toNumber(after) === share;
    // The middle of a stretch at one height says nothing.
    if (pen === "up" || !even) path += `${pen === "up" ? "M" : "L"}${x(point.input)} ${y(share)}`;
    pen = "down";
  });
  return path;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}

function escaped(text: string): string {
  return text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");
}
