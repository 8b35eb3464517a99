/** The words of `pulsewright plan`, and what they mean on the board: target, pins, wants. Every fault is one sentence. */
import { parseArgs } from "node:util";
import { busLines } from "../../shared-model/boards/bus-lines.js";
import type { Target } from "../../shared-model/chip.js";
import { readClock } from "../../shared-model/clock-text.js";
import { bareCore } from "../../shared-model/plans/bare-core.js";
import { pinLabel } from "../../shared-model/plans/pin-label.js";
import type { PlanRequest, WantedOutput } from "../../shared-model/plans/planner.js";
import { resolveTarget } from "../../shared-model/target.js";
import type { WantComment } from "../../shared-model/wants/comment.js";
import { readComment } from "../../shared-model/wants/read-comment.js";

export interface PlanWords {
  readonly board: string | undefined;
  readonly clockHz: number | undefined;
  readonly pins: readonly string[];
  /** One for all pins, or one for each. */
  readonly wants: readonly string[];
  readonly keep: readonly string[];
  readonly format: "text" | "json";
}

export type Problem = { readonly problem: string };

/** Cuts the words apart; knows no board. */
export function readPlanWords(words: readonly string[]): PlanWords | Problem {
  let parsed: ReturnType<typeof parse>;
  try {
    parsed = parse(words);
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return { problem: message.split(/\.\s|\n/)[0]!.replace(/\.$/, "") };
  }
  const { values, positionals } = parsed;
  const pins = listOf(values.pin);
  if (pins.length === 0) return { problem: "plan needs a pin: --pin 9, or --pin 9,10 for several" };
  if (positionals.length === 0) return { problem: 'plan needs what is wanted, in quotes: "25 kHz within 21..28 kHz"' };
  if (positionals.length !== 1 && positionals.length !== pins.length)
    return {
      problem: `${positionals.length} wants for ${pins.length} ${pins.length === 1 ? "pin" : "pins"}: give one want (in quotes) for all pins, or one for each`,
    };
  const format = values.format ?? "text";
  if (format !== "text" && format !== "json")
    return { problem: `unknown format "${format}": a plan is printed as text or json` };
  const clockHz = values.clock === undefined ? undefined : readClock(values.clock);
  if (clockHz === null) return { problem: `"${values.clock}" is no clock: give it in Hz, as in 16000000, 8e6 or 8MHz` };
  return { board: values.board, clockHz, pins, wants: positionals, keep: listOf(values.keep), format };
}

function parse(words: readonly string[]) {
  return parseArgs({
    args: [...words],
    allowPositionals: true,
    strict: true,
    options: {
      board: { type: "string" },
      clock: { type: "string" },
      pin: { type: "string", multiple: true },
      keep: { type: "string", multiple: true },
      format: { type: "string" },
    },
  });
}

function listOf(words: readonly string[] | undefined): string[] {
  return (words ?? [])
    .flatMap((word) => word.split(","))
    .map((word) => word.trim())
    .filter((word) => word !== "");
}

export interface PlanAsked {
  readonly target: Target;
  /** One request for each timer, or for each pin that no timer drives; together they hold every pin, in the given order. */
  readonly requests: readonly PlanRequest[];
}

/** What the words mean on this board. */
export function askedOf(words: PlanWords): PlanAsked | Problem {
  const answer = resolveTarget({
    commandLine: {
      ...(words.board === undefined ? {} : { board: words.board }),
      ...(words.clockHz === undefined ? {} : { clockHz: words.clockHz }),
    },
  });
  if ("problem" in answer) return answer;
  const { target } = answer;
  const outputs: WantedOutput[] = [];
  for (const [at, pin] of words.pins.entries()) {
    const port = portOf(target, pin);
    if (port === undefined) return { problem: `${target.boardId} has no pin ${quoted(pin)}: ${pinsOf(target)}` };
    if (outputs.some((output) => output.port === port)) return { problem: `pin ${pin} is given twice` };
    if (!hasTimer(target, port))
      return {
        problem: `no timer drives ${pinLabel(target, port)} of ${target.boardId}: ${drivenPins(target)} have one`,
      };
    const want = readWantText(words.wants.length === 1 ? words.wants[0]! : words.wants[at]!);
    if ("problem" in want) return want;
    outputs.push({ port, want });
  }
  const kept = new Set<string>();
  for (const pin of words.keep) {
    const port = portOf(target, pin);
    if (port === undefined)
      return { problem: `${target.boardId} has no pin ${quoted(pin)} to keep: ${pinsOf(target)}` };
    if (outputs.some((output) => output.port === port)) return { problem: `pin ${pin} cannot be planned and kept` };
    kept.add(port);
  }
  const buses = new Map([...busLines(target)].map(([port, { line }]) => [port, { line, inUse: false }]));
  const occupation = bareCore(target, { kept, buses });
  return { target, requests: byTimer(target, outputs).map((group) => ({ target, outputs: group, occupation })) };
}

/** `D9`, `9`, `A0`, `PB1` → the port. */
function portOf(target: Target, name: string): string | undefined {
  const upper = name.toUpperCase();
  const number = /^D?(\d+)$/.exec(upper)?.[1];
  for (const pin of target.pins) {
    if (number === undefined ? pin.analog === upper || pin.port === upper : pin.number === Number(number))
      return pin.port;
  }
  return /^P[A-L][0-7]$/.test(upper) && hasTimer(target, upper) ? upper : undefined;
}

function hasTimer(target: Target, port: string): boolean {
  return target.chip.timers.some((timer) => timer.channels.some((channel) => channel.port === port));
}

/** Pins on one timer with the first that is not placed yet go together. */
function byTimer(target: Target, outputs: readonly WantedOutput[]): WantedOutput[][] {
  const groups: WantedOutput[][] = [];
  const left = [...outputs];
  while (left.length > 0) {
    const timers = target.chip.timers.map((timer) =>
      left.filter(({ port }) => timer.channels.some((channel) => channel.port === port)),
    );
    const group = timers.filter((each) => each.includes(left[0]!)).sort((a, b) => b.length - a.length)[0]!;
    groups.push(group);
    for (const output of group) left.splice(left.indexOf(output), 1);
  }
  return groups;
}

const OPENING = "// wants D9: ";

/** The text as it stands in a sketch behind `wants PIN:`; a whole want comment is understood as well. */
function readWantText(text: string): WantComment | Problem {
  const bare = text.replace(/^\s*(?:\/\/+\s*)?wants\s+[^:]*:/, "");
  const cut = text.length - bare.length;
  const blanks = bare.length - bare.trimStart().length;
  const line = `${OPENING}${bare.trim()}`;
  const comment = bare.trim() === "" || /[\r\n]/.test(bare.trim()) ? undefined : readComment(line)[0];
  if (comment?.kind === "want") return comment;
  const at = (comment?.kind === "unread" ? Math.max(0, comment.column - OPENING.length) : 0) + blanks + cut;
  const expected =
    comment?.kind === "unread" ? comment.expected : "a frequency such as 1 kHz, or another demand, on one line";
  return { problem: `the want ${quoted(text)} cannot be read at column ${at + 1}: expected ${expected}` };
}

function quoted(text: string): string {
  const line = text.replace(/\s+/g, " ");
  return `"${line.length > 70 ? `${line.slice(0, 70)}…` : line}"`;
}

function pinsOf(target: Target): string {
  if (target.board === null) return `name a port such as ${target.chip.timers[0]!.channels[0]!.port}`;
  const digital = target.pins.filter((pin) => pin.analog === undefined);
  const analog = target.pins.filter((pin) => pin.analog !== undefined);
  return `it has D${digital[0]!.number}..D${digital[digital.length - 1]!.number} and A0..A${analog.length - 1}`;
}

function drivenPins(target: Target): string {
  const ports = new Set(target.chip.timers.flatMap((timer) => timer.channels.map((channel) => channel.port)));
  const known = target.pins.filter((pin) => ports.has(pin.port)).map((pin) => pinLabel(target, pin.port));
  const labels = known.length === 0 ? [...ports] : known;
  return labels.join(", ");
}
