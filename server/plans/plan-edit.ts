/**
 * A plan as edits of a sketch: register code in its place, the statements that set the timer today taken out, duties moved
 * onto the new scale. There are several ways to do it; which of them keeps the promise, the proof decides.
 */
import type { ChannelFact, ModeFact, TimerFact } from "../../shared-model/chip.js";
import type { Plan, PlannedOutput } from "../../shared-model/plans/plan.js";
import type { Analysis } from "../analysis.js";
import type { TextEdit } from "../edits/text-edit.js";
import { maskedBits } from "../look/core-bits.js";
import { pinOfUnit } from "../look/look.js";
import { namingStyle } from "../look/naming.js";
import { replaceStatements } from "./line-edits.js";
import { libraryOn } from "./occupation.js";
import { directionLines } from "./pin-direction.js";
import { codeAtEnd, codeBefore, type PlainStatement, plainStatement } from "./placement.js";
import { planRemark } from "./plan-words.js";
import { countingOf, rescaled, type Scale, scaledValue } from "./rescale.js";
import { actsBesides } from "./side-effects.js";
import { timerCode, type UnitCode } from "./timer-code.js";
import { type DutyWrite, type TimerToday, timerToday } from "./today.js";
import { connection, countingToday } from "./unit-today.js";

/** One way to write the plan down. */
export interface Manner {
  /** In place of what sets the timer today, or at the end of setup. */
  readonly place: "in place" | "at the end";
  /** Duties keep their share of the period, or are spread over what the want allows. */
  readonly duty: "as it was" | "as wanted";
}

export const MANNERS: readonly Manner[] = [
  { place: "in place", duty: "as it was" },
  { place: "in place", duty: "as wanted" },
  { place: "at the end", duty: "as it was" },
  { place: "at the end", duty: "as wanted" },
];

export interface WrittenPlan {
  readonly edits: readonly TextEdit[];
  readonly code: readonly string[];
  /** Wanted units whose duty the sketch never writes: what the want says of it is still to be done. */
  readonly dutyOpen: readonly string[];
  /** True where the values written are spread over another share of the period than today. */
  readonly spread: boolean;
}

/** `names`: what the sketch calls the pins, by port. A string is the reason why it cannot be written this way. */
export function writePlan(
  analysis: Analysis,
  plan: Plan,
  names: ReadonlyMap<string, string>,
  manner: Manner,
): WrittenPlan | string {
  const { chip } = analysis.target;
  const timer = chip.timers.find((candidate) => candidate.number === plan.setting.timer);
  const mode = timer?.modes.find((candidate) => candidate.select === plan.setting.mode);
  if (timer === undefined || mode === undefined) return `there is no timer ${plan.setting.timer}`;
  return new PlanWriter(analysis, plan, names, manner, timerToday(analysis, timer), mode).write();
}

interface Fate {
  readonly code: UnitCode;
  readonly edits: readonly TextEdit[];
  /** Duties written once, by a statement of their own that goes: their value stands in the code. */
  readonly folded: readonly PlainStatement[];
  /** The first duty in setup that stays: the code has to come before it. */
  readonly before: PlainStatement | null;
  readonly open: boolean;
  /** Whether some call that stays makes the pin an output. */
  readonly driven: boolean;
}

/** The place of the code; null for the end of setup. */
interface Known {
  readonly place: PlainStatement | null;
}

class PlanWriter {
  readonly #timer: TimerFact;
  #spread = false;

  constructor(
    readonly analysis: Analysis,
    readonly plan: Plan,
    readonly names: ReadonlyMap<string, string>,
    readonly manner: Manner,
    readonly today: TimerToday,
    readonly mode: ModeFact,
  ) {
    this.#timer = today.timer;
  }

  write(): WrittenPlan | string {
    const { analysis, plan, today } = this;
    const library = libraryOn(analysis, this.#timer.number);
    if (library !== null) return `${library} sets timer ${this.#timer.number} for itself`;
    if (today.capture && plan.setting.topRegister === this.#timer.capture)
      return `${this.#timer.capture} becomes TOP, but the sketch captures times in it`;
    // Once to find the place, once more knowing it: what stands before it is of the old scale and stays.
    const first = this.#fates(null);
    if (typeof first === "string") return first;
    const place = this.#place(this.#old(first), first);
    const fates = this.#fates({ place });
    if (typeof fates === "string") return fates;
    const old = this.#old(fates);
    const units = fates.map((fate) => ({
      ...fate.code,
      mayBeHigh: fate.code.mayBeHigh && this.#wasConnected(fate.code.unit, old, place),
    }));
    const code = [
      ...timerCode({
        chip: analysis.target.chip,
        setting: plan.setting,
        units,
        keepsCapture: today.capture,
        guard: today.sharedWithRoutines ? freeName(analysis) : null,
        style: namingStyle(analysis),
        remark: planRemark(analysis, plan),
      }),
      ...this.#directions(fates),
    ];
    const edits = this.#edits(old, place, code, fates);
    if (edits === null) return "there is no setup to put the code into";
    return {
      edits,
      code,
      dutyOpen: fates.flatMap((fate) => (fate.open ? [fate.code.unit] : [])),
      spread: this.#spread,
    };
  }

  /** `known`: the place of the code; null before it is known, when nothing is edited yet. */
  #fates(known: Known | null): readonly Fate[] | string {
    const fates: Fate[] = [];
    for (const channel of this.#timer.channels) {
      const fate = this.#fate(channel, known);
      if (typeof fate === "string") return fate;
      if (fate !== null) fates.push(fate);
    }
    return fates;
  }

  /** The statements that go. */
  #old(fates: readonly Fate[]): readonly PlainStatement[] {
    return [
      ...this.today.setting.flatMap((write) => {
        const statement = write.inInterrupt === null ? plainStatement(this.analysis, write.span) : undefined;
        if (statement === undefined || actsBesides(write.expression)) return [];
        // What hangs on a condition is overruled by the code that follows; it goes only where that is not enough.
        return statement.inBody === null && this.manner.place === "in place" ? [] : [statement];
      }),
      ...fates.flatMap((fate) => fate.folded),
    ];
  }

  /** What becomes of one unit; null where it is nobody's and is disconnected; a string where it cannot be. */
  #fate(channel: ChannelFact, known: Known | null): Fate | null | string {
    const output = this.plan.outputs.find((candidate) => candidate.unit === channel.unit);
    const duties = this.today.duties.filter((duty) => duty.unit === channel.unit);
    const holdsTop = channel.compare === this.plan.setting.topRegister;
    if (output === undefined && !holdsTop && !this.#inUse(channel, duties)) return null;
    if (holdsTop) return this.#topHolder(channel, output, duties);
    const scale = this.#scale(channel, output, duties);
    if (typeof scale === "string") return scale;
    return this.#dutyFate(channel, output, duties, scale, known);
  }

  #inUse(channel: ChannelFact, duties: readonly DutyWrite[]): boolean {
    return duties.length > 0 || connection(this.analysis, this.#timer, channel) !== 0;
  }

  /** The register is TOP: duties of the unit would move it, so only such as were written once can be taken out. */
  #topHolder(channel: ChannelFact, output: PlannedOutput | undefined, duties: readonly DutyWrite[]): Fate | string {
    const folded: PlainStatement[] = [];
    for (const duty of duties) {
      const statement = this.#foldable(duty);
      if (statement === null) return `${channel.compare} becomes TOP, but the sketch goes on writing it as a duty`;
      folded.push(statement);
    }
    const code: UnitCode = { unit: channel.unit, com: output?.com ?? 0, value: null, mayBeHigh: output !== undefined };
    return { code, edits: [], folded, before: null, open: false, driven: false };
  }

  #scale(channel: ChannelFact, output: PlannedOutput | undefined, duties: readonly DutyWrite[]): Scale | string {
    const { plan, analysis, today, mode } = this;
    const { top } = plan.setting;
    const counting = countingOf(mode);
    const toggles = output?.com === 1 || counting === null;
    if (toggles && duties.length > 0) return "a toggling output has one duty only, and the sketch writes others";
    const from = this.#from(duties);
    if (from === null && duties.length > 0) return "it is not known which value means always on today";
    if (duties.length > 0 && from !== today.top && today.top !== null && today.top > 0) this.#spread = true;
    const pin = analysis.target.pins.find((candidate) => candidate.port === channel.port);
    const inverted = output?.com === 3;
    const wanted = this.manner.duty === "as wanted" && output !== undefined;
    return {
      from: from ?? top,
      fromCounting: countingToday(analysis, today.timer),
      fromInverted: connection(analysis, today.timer, channel) === 3,
      onto: wanted ? output.compareValues : { min: 0, max: top },
      top,
      counting: counting ?? "single",
      inverted,
      keepsAnalogWrite: top <= 255 && !inverted && pin?.analogWriteUnit === channel.unit,
      compare: channel.compare,
    };
  }

  /** The value that means always on: today's TOP, or the end of what the written values can be. */
  #from(duties: readonly DutyWrite[]): number | null {
    const { top } = this.today;
    if (this.manner.duty === "as it was" && top !== null && top > 0) return top;
    const greatest = Math.max(0, ...duties.map((duty) => duty.value?.value?.max ?? 0));
    if (duties.every((duty) => duty.by === "analogWrite") || greatest <= 255) return 255;
    return greatest >= 1000 && greatest <= 1023 ? 1023 : greatest;
  }

  #dutyFate(
    channel: ChannelFact,
    output: PlannedOutput | undefined,
    all: readonly DutyWrite[],
    scale: Scale,
    known: Known | null,
  ): Fate | string {
    const duties = all.filter((duty) => known === null || !isAhead(duty, known.place));
    const inSetup = duties.filter((duty) => this.#foldable(duty) !== null);
    const fold = inSetup.length === 1 ? inSetup[0]! : null;
    const rest = duties.filter((duty) => duty !== fold);
    const edits: TextEdit[] = [];
    for (const duty of known === null ? [] : rest) {
      const edit = rescaled(this.analysis, duty, scale);
      if (edit === undefined) return `the duty written to ${channel.compare} cannot be moved to another scale`;
      if (edit !== null && this.today.sharedWithRoutines && edit.text.startsWith(`${channel.compare} = `))
        return "an interrupt routine shares the 16-bit access, and the duty would be written unguarded";
      if (edit !== null) edits.push(edit);
    }
    const byCore =
      fold === null && rest.length > 0 && scale.keepsAnalogWrite && rest.every((duty) => duty.by === "analogWrite");
    const value =
      fold === null || fold.constant === null
        ? this.#firstValue(output, rest, scale)
        : scaledValue(fold.constant, fold.by, scale);
    const com = output?.com ?? connection(this.analysis, this.#timer, channel);
    const before =
      rest
        .map((duty) => plainStatement(this.analysis, duty.span))
        .find((each) => each !== undefined && isStart(each)) ?? null;
    return {
      code: byCore
        ? { unit: channel.unit, com: output === undefined ? null : 0, value: null, mayBeHigh: true }
        : { unit: channel.unit, com, value, mayBeHigh: true },
      edits,
      folded: fold === null ? [] : [this.#foldable(fold)!],
      before,
      open: output !== undefined && all.length === 0,
      driven: byCore,
    };
  }

  /** Before the sketch has written one: the least that is allowed; where it never does, the middle. */
  #firstValue(output: PlannedOutput | undefined, rest: readonly DutyWrite[], scale: Scale): number | null {
    if (output === undefined) return null;
    const { min, max } = output.compareValues;
    if (rest.length > 0) return scale.inverted ? max : min;
    return Math.round((min + max) / 2);
  }

  /** A constant written by a statement of its own at the start of the program: null where it is not such a one. */
  #foldable(duty: DutyWrite): PlainStatement | null {
    if (duty.constant === null || duty.inInterrupt !== null || !duty.own || duty.value === null) return null;
    const statement = plainStatement(this.analysis, duty.span);
    if (statement === undefined || !isStart(statement)) return null;
    return statement;
  }

  #place(old: readonly PlainStatement[], fates: readonly Fate[]): PlainStatement | null {
    const before = fates.map((fate) => fate.before).find((each) => each !== null) ?? null;
    if (this.manner.place === "in place") {
      const first = old.find((statement) => statement.inBody !== null && !runsAgain(this.analysis, statement));
      if (first === undefined) return before;
      // In that function the one that stands first: a duty that was there before a delay is there before it still.
      const beside = old.filter((other) => other.own === first.own && other.inBody === first.inBody);
      return beside.reduce((earliest, other) => (other.start < earliest.start ? other : earliest));
    }
    return null;
  }

  /** Whether the unit may have been connected when the code runs: told by every other write to its COM bits. */
  #wasConnected(unit: string, old: readonly PlainStatement[], place: PlainStatement | null): boolean {
    const channel = this.#timer.channels.find((candidate) => candidate.unit === unit);
    if (channel === undefined) return true;
    const bits = 3 << channel.com.shift;
    const inStart = place === null || isStart(place);
    return this.analysis.writes.some((write) => {
      if (write.register !== channel.com.register || maskedBits(write.after, bits) === 0) return false;
      if (old.some((gone) => gone.own.file.path === write.span.path && gone.start === write.span.start)) return false;
      if (inStart && write.inInterrupt === null && write.inFunction === "loop") return false;
      const later =
        place !== null &&
        write.inFunction === place.inBody &&
        write.span.path === place.own.file.path &&
        write.span.start > place.start;
      return !later || !inStart;
    });
  }

  #directions(fates: readonly Fate[]): readonly string[] {
    return this.plan.outputs.flatMap((output) => {
      const fate = fates.find((candidate) => candidate.code.unit === output.unit);
      if (fate?.driven === true) return [];
      return directionLines(this.analysis, output.port, this.names.get(output.port) ?? null);
    });
  }

  #edits(
    old: readonly PlainStatement[],
    place: PlainStatement | null,
    code: readonly string[],
    fates: readonly Fate[],
  ): readonly TextEdit[] | null {
    const edits: TextEdit[] = fates.flatMap((fate) => fate.edits);
    for (const path of new Set(old.map((statement) => statement.own.file.path))) {
      const here = old.filter((statement) => statement.own.file.path === path);
      const at = here.findIndex((statement) => place !== null && same(statement, place));
      edits.push(
        ...replaceStatements({
          path,
          text: here[0]!.own.file.text,
          statements: here,
          codeAt: at < 0 ? null : at,
          code,
        }),
      );
    }
    if (place === null) {
      const atEnd = codeAtEnd(this.analysis, code);
      if (atEnd === null) return null;
      edits.push(atEnd);
    } else if (!old.some((statement) => same(statement, place))) edits.push(codeBefore(place, code));
    return edits;
  }
}

function same(left: PlainStatement, right: PlainStatement): boolean {
  return left.own === right.own && left.start === right.start;
}

/** Whether a duty is written before the code's place, in the function in which the program begins. */
function isAhead({ span, inFunction }: DutyWrite, place: PlainStatement | null): boolean {
  return (
    place !== null &&
    isStart(place) &&
    inFunction === place.inBody &&
    span.path === place.own.file.path &&
    span.start < place.start
  );
}

/** Whether a statement comes round: code put there would start the timer anew each time. */
function runsAgain(analysis: Analysis, statement: PlainStatement): boolean {
  if (statement.inBody === "loop") return true;
  if (isStart(statement)) return false;
  const { path } = statement.own.file;
  return analysis.writes.some(
    (write) =>
      write.span.path === path &&
      write.inFunction === statement.inBody &&
      (write.times > 1 || write.effects.some((effect) => effect.regime === "running")),
  );
}

/** Whether a statement stands where a program begins: in setup, or in main. */
function isStart(statement: PlainStatement): boolean {
  return statement.inBody === "setup" || statement.inBody === "main";
}

function freeName(analysis: Analysis): string {
  const text = analysis.files.map((file) => file.text).join("\n");
  const free = ["oldSREG", "savedSREG", "flagsBefore"].find((name) => !new RegExp(`\\b${name}\\b`).test(text));
  return free ?? "pulsewrightSREG";
}

/** The pins whose signals the plan means to change, as the analysis names them. */
export function pinsOfPlan(analysis: Analysis, plan: Plan): readonly string[] {
  const timer = analysis.target.chip.timers.find((candidate) => candidate.number === plan.setting.timer);
  const costly = new Set(plan.costs.flatMap((cost) => (cost.port === null ? [] : [cost.port])));
  const own = new Set(plan.outputs.map((output) => output.port));
  return (timer?.channels ?? []).flatMap((channel) => {
    const pin = pinOfUnit(analysis, channel.unit);
    return own.has(channel.port) || costly.has(channel.port) ? [pin?.pin ?? channel.port] : [];
  });
}
