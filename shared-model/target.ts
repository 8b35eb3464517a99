/**
 * Which board, chip and clock a sketch is analysed for: command line, then comments, then workspace settings, then the
 * ecosystem's project file, then the default board, each field for itself (design section 5).
 */
import { boardIds, corePinsOf, findBoard } from "./boards/boards.js";
import type { Board, BoardVariant, Chip, DecidedBy, Target } from "./chip.js";
import { chipIds, findChip } from "./chips/chips.js";
import { clockTolerances } from "./clock-tolerance.js";
import { editDistance } from "./edit-distance.js";

/** What one source says; what it does not say is absent. */
export interface TargetSource {
  /** `nano`, `nano:cpu=atmega168`, `arduino:avr:nano:cpu=atmega168`, `atmega328p`. */
  readonly board?: string;
  /** The oscillator, in Hz. On the command line it is what the build was told as well. */
  readonly clockHz?: number;
  /** Relative, one-sided: 0.005 is ±0.5 %. */
  readonly tolerance?: number;
  /** What the build was told (F_CPU), in Hz. */
  readonly fCpu?: number;
}

export interface TargetRequest {
  readonly commandLine?: Pick<TargetSource, "board" | "clockHz">;
  readonly comment?: TargetSource;
  readonly settings?: TargetSource;
  readonly projectFile?: TargetSource;
}

export type TargetAnswer = { readonly target: Target } | { readonly problem: string };

export const defaultBoardId = "nano";

/** A bare chip names no clock of its own: the boards that carry these chips run at 16 MHz. */
const bareChipClock = {
  hz: 16_000_000,
  tolerance: clockTolerances.resonator.tolerance,
  source: `a bare chip names no clock: 16 MHz assumed, ${clockTolerances.resonator.source}`,
};

const fastestClockHz = 100_000_000;

/** The target, or one sentence that says which source asked for something unknown. */
export function resolveTarget(request: TargetRequest): TargetAnswer {
  const sources: { name: DecidedBy; source: TargetSource }[] = [
    { name: "command line", source: request.commandLine ?? {} },
    { name: "comment", source: request.comment ?? {} },
    { name: "settings", source: request.settings ?? {} },
    { name: "project file", source: request.projectFile ?? {} },
  ];
  for (const { name, source } of sources) {
    const problem = badNumber(source);
    if (problem !== null) {
      return { problem: `${problem} (${name})` };
    }
  }
  const first = <T>(pick: (source: TargetSource) => T | undefined): T | undefined =>
    sources.map(({ source }) => pick(source)).find((value) => value !== undefined);
  const named = sources.find(({ source }) => source.board !== undefined && source.board.trim() !== "");
  const boardId = named?.source.board?.trim() ?? defaultBoardId;
  const found = findTarget(boardId);
  if ("problem" in found) {
    return { problem: named === undefined ? found.problem : `${found.problem} (${named.name})` };
  }
  const { board, variant, chip } = found;
  const clock = variant?.clock ?? bareChipClock;
  // `--clock` is both the oscillator and F_CPU; a clock from elsewhere is the oscillator alone.
  const fCpu = request.commandLine?.clockHz ?? first((source) => source.fCpu) ?? variant?.fCpu ?? bareChipClock.hz;
  const clockHz = first((source) => source.clockHz) ?? clock.hz;
  const clockNamed = sources.find(({ source }) => source.clockHz !== undefined);
  const tolerance = first((source) => source.tolerance);
  const boardMacro = variant?.macro ?? board?.macro;
  return {
    target: {
      board,
      boardId: found.id,
      ...(boardMacro === undefined ? {} : { boardMacro }),
      chip,
      pins: board?.pins ?? corePinsOf(chip.id)?.pins ?? [],
      clockHz: Math.round(clockHz),
      fCpu: Math.round(fCpu),
      clockTolerance: tolerance ?? clock.tolerance,
      toleranceSource: tolerance === undefined ? clock.source : `as given, ±${showPercent(tolerance)}`,
      supply: variant?.supply ?? null,
      decidedBy: named?.name ?? "default",
      clockDecidedBy: clockNamed?.name ?? "board",
    },
  };
}

type Found =
  | { readonly id: string; readonly board: Board | null; readonly variant: BoardVariant | null; readonly chip: Chip }
  | { readonly problem: string };

/** `id`, `id:cpu=option` or `package:architecture:id[:options]`; else a bare chip. */
function findTarget(asked: string): Found {
  const parts = asked.split(":").map((part) => part.trim());
  let rest = parts;
  if (parts.length >= 3 && !parts[1]!.includes("=")) {
    if (parts[1]!.toLowerCase() !== "avr") {
      return { problem: `${quoted(asked)} is not an AVR board: only the architecture avr is carried` };
    }
    rest = parts.slice(2);
  }
  const [id = "", ...optionParts] = rest;
  const board = findBoard(id);
  if (board === undefined) {
    const chip = optionParts.length === 0 ? findChip(id) : undefined;
    return chip === undefined ? { problem: unknownId(id) } : { id: chip.id, board: null, variant: null, chip };
  }
  const options = optionParts.flatMap((part) => part.split(",")).filter((option) => option !== "");
  let variant = board.variants[0]!;
  for (const option of options) {
    const [key = "", value] = option.split("=").map((part) => part.trim());
    if (key.toLowerCase() !== "cpu" || value === undefined) {
      return { problem: `${quoted(option)} is no option of board ${board.id}: write ${board.id}:cpu=OPTION` };
    }
    const chosen = board.variants.find((candidate) => candidate.option?.toLowerCase() === value.toLowerCase());
    if (chosen === undefined) {
      const known = board.variants.flatMap((candidate) => (candidate.option === null ? [] : [candidate.option]));
      return {
        problem:
          known.length === 0
            ? `board ${board.id} has no cpu options`
            : `board ${board.id} has no cpu option ${quoted(value)}: it has ${known.join(", ")}`,
      };
    }
    variant = chosen;
  }
  const chip = findChip(variant.chip);
  if (chip === undefined) {
    return { problem: `board ${board.id} carries the chip ${variant.chip}, which is not known` };
  }
  const cpu = options.length > 0 && variant.option !== null ? `:cpu=${variant.option}` : "";
  return { id: `${board.id}${cpu}`, board, variant, chip };
}

function unknownId(id: string): string {
  const known = [...boardIds, ...chipIds];
  const near = known.filter((candidate) => editDistance(candidate.toLowerCase(), id.toLowerCase()) <= 2).slice(0, 3);
  const hint = near.length > 0 ? `did you mean ${near.join(" or ")}?` : `known are ${known.join(", ")}`;
  return `unknown board or chip ${quoted(id)}: ${hint}`;
}

/** A name as it may stand in one line of a message. */
function quoted(text: string): string {
  return `"${text.replace(/\s+/g, " ").slice(0, 60)}"`;
}

function badNumber(source: TargetSource): string | null {
  for (const [what, hz] of [
    ["clock", source.clockHz],
    ["F_CPU", source.fCpu],
  ] as const) {
    if (hz !== undefined && !(hz >= 1 && hz <= fastestClockHz)) {
      return `${what} ${hz} Hz is outside 1 Hz to 100 MHz`;
    }
  }
  if (source.tolerance !== undefined && !(source.tolerance >= 0 && source.tolerance < 1)) {
    return `clock tolerance ${source.tolerance} is outside 0 to 100 %`;
  }
  return null;
}

function showPercent(relative: number): string {
  const percent = Number((relative * 100).toPrecision(6));
  return percent < 0.1 ? `${Number((relative * 1e6).toPrecision(6))} ppm` : `${percent} %`;
}
