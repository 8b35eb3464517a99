/**
 * Every mode, clock, TOP and output setting of a pin's timers, one by one, through the waveform engine and the judge, and the
 * Pareto front of it by comparing each with each. Shares no arithmetic with the planner: periods and duties are those of
 * the engine, which golden rows and a tick counter vouch for; costs are told anew from the rules.
 */
import type { ChannelFact, ModeFact, TimerFact } from "../../../shared-model/chip.js";
import type { FrontStretch } from "../../../shared-model/plans/plan.js";
import type { PlanRequest } from "../../../shared-model/plans/planner.js";
import { exactly, type RegisterValue } from "../../../shared-model/register-value.js";
import type { Waveform } from "../../../shared-model/signal.js";
import type { WantedSignal } from "../../../shared-model/wants/comment.js";
import { judgeWant } from "../../../shared-model/wants/judge.js";
import { outputAction, shapesOf } from "../../../shared-model/waveforms/compare-shapes.js";
import { pinWaveforms } from "../../../shared-model/waveforms/pin-waveforms.js";
import { snapshotOf } from "../waveforms/snapshots.js";

/** What plans are compared by. */
export interface Vector {
  readonly grade: 1 | 2;
  readonly error: number;
  readonly steps: number;
  /** Sorted, joined. */
  readonly costs: string;
  /** Where it was found first: for messages. */
  readonly where: string;
}

/** One pin, no others in use: the front over everything that its timers can do. */
export function bruteFront(request: PlanRequest): Vector[] {
  return paretoOf(bruteVectors(request));
}

export function bruteVectors({ target, outputs, occupation }: PlanRequest): Vector[] {
  const { port, want } = outputs[0]!;
  const found = new Map<string, Vector>();
  for (const timer of target.chip.timers) {
    const channel = timer.channels.find((candidate) => candidate.port === port);
    if (channel === undefined) continue;
    const near = want.frequency?.hz;
    for (const mode of timer.modes) {
      if (mode.family === "reserved") continue;
      for (const com of [1, 2, 3] as const) {
        for (const [clock, source] of timer.clocks.entries()) {
          if (source.kind !== "divided") continue;
          const table = periodTable({ timer, channel, mode, com });
          // A little more than the want, so that its edges are the judge's to draw.
          const least = target.clockHz / ((want.frequency?.max ?? Number.POSITIVE_INFINITY) * 1.001 * source.by);
          const most = target.clockHz / ((want.frequency?.min ?? 0) * 0.999 * source.by);
          for (const top of topsWithin(table, mode, least, most)) {
            const setting: Setting = {
              timer,
              channel,
              mode,
              com,
              clock,
              top,
              clockHz: target.clockHz,
              chip: target.chip,
            };
            const hz = target.clockHz / (table.counts(top) * source.by);
            const grade = gradeOf(setting, want, target.clockTolerance);
            if (grade === 0) continue;
            const error = near === undefined ? 0 : Math.abs(hz / near - 1);
            const vector: Vector = {
              grade,
              error: error < 1e-11 ? 0 : error,
              steps: com === 1 ? 1 : top + 1,
              costs: costKeys(
                setting,
                source.by,
                want,
                occupation.timeBase?.timer,
                occupation.buses.has(port),
                target.pins.find((pin) => pin.port === port)?.analogWriteUnit,
              ),
              where: `timer ${timer.number} mode ${mode.select} /${source.by} TOP ${top} com ${com}`,
            };
            const key = keyOf(vector);
            if (!found.has(key)) found.set(key, vector);
          }
        }
      }
    }
  }
  return [...found.values()];
}

export interface Setting {
  readonly chip: PlanRequest["target"]["chip"];
  readonly timer: TimerFact;
  readonly channel: ChannelFact;
  readonly mode: ModeFact;
  readonly com: 1 | 2 | 3;
  readonly clock: number;
  readonly top: number;
  readonly clockHz: number;
}

/** The engine's waveforms with the compare value anywhere in a range. */
function waveforms(
  { chip, timer, channel, mode, com, clock, top, clockHz }: Setting,
  compare: RegisterValue,
): Waveform[] {
  const values: Record<string, number> = { [mode.top.kind === "compareA" ? "A" : "ICR"]: top };
  const snapshot = snapshotOf(timer, { mode: mode.select, clock, com: { [channel.letter]: com }, values });
  const own = mode.top.kind === "compareA" && channel.letter === "A";
  return pinWaveforms(
    chip,
    channel.port,
    [
      {
        ...snapshot,
        channels: snapshot.channels.map((each) =>
          each.unit === channel.unit
            ? { ...each, alternatives: each.alternatives.map((one) => (own ? one : { ...one, compare })) }
            : each,
        ),
      },
    ],
    clockHz,
  );
}

function between(min: number, max: number): RegisterValue {
  return min === max ? exactly(min, 16) : { min, max, zeros: 0, ones: 0, values: null };
}

const tables = new Map<string, PeriodTable>();

/** Timer counts a period of every TOP, filled as it is asked for; NaN where there is no pulse, or the data sheet forbids the TOP. */
interface PeriodTable {
  readonly size: number;
  counts(top: number): number;
}

/** From the engine's shapes. The engine's times are these counts times the prescaler: its golden rows say so. */
function periodTable({ timer, channel, mode, com }: Pick<Setting, "timer" | "channel" | "mode" | "com">): PeriodTable {
  const own = mode.top.kind === "compareA" && channel.letter === "A";
  // Units B and C are alike.
  const key = `${timer.bits} ${mode.select} ${com} ${channel.letter === "A"}`;
  const known = tables.get(key);
  if (known !== undefined) return known;
  const size = 2 ** timer.bits;
  const action = outputAction(mode, com, channel.letter, timer.bits);
  const steered = mode.family !== "normal" && mode.family !== "ctc";
  // Section 16.9.3 of DS40002061 and 17.9.3 of 2549: at least 2 bits in the 16-bit timer's PWM modes.
  const least = steered && timer.bits === 16 ? 3 : 0;
  const filled = new Float64Array(size);
  const table = {
    size,
    counts: (top: number): number => {
      if (filled[top] === 0) {
        const compare = own ? ("own" as const) : { min: 0, max: top };
        const shapes = top < least ? [] : shapesOf(mode, action, { top: { min: top, max: top }, compare });
        const pulse = shapes.find(({ kind }) => kind === "pulse");
        filled[top] = pulse?.kind === "pulse" ? pulse.period.min : Number.NaN;
      }
      return filled[top]!;
    },
  };
  tables.set(key, table);
  return table;
}

/** The TOPs with periods between two numbers of timer counts, by halving: a greater TOP has a longer period, which is checked. */
function topsWithin(table: PeriodTable, mode: ModeFact, least: number, most: number): number[] {
  const at = table.counts;
  if (mode.top.kind === "fixed")
    return at(mode.top.value) >= least && at(mode.top.value) <= most ? [mode.top.value] : [];
  let [low, high] = [0, table.size];
  while (low < high) {
    const middle = (low + high) >> 1;
    // The few TOPs without a pulse are the least.
    if (Number.isNaN(at(middle)) || at(middle) < least) low = middle + 1;
    else high = middle;
  }
  const tops: number[] = [];
  for (let top = low; top < table.size && at(top) <= most; top++) {
    if (top > 0 && at(top - 1) >= at(top)) throw new Error(`TOP ${top} has no longer period than ${top - 1}`);
    tops.push(top);
  }
  return tops;
}

/** The judge's word on the compare values that keep within duty and width: those that surely do, else those that nominally do. */
function gradeOf(setting: Setting, want: WantedSignal, tolerance: number): 0 | 1 | 2 {
  const judged = (range: RegisterValue) => {
    // Without times in the want the clock does not matter, and one verdict serves all.
    const timeless = want.frequency === undefined && want.pulse === undefined;
    const { mode, com, top } = setting;
    const way = `${mode.family} ${mode.top.kind === "compareA" && setting.channel.letter === "A"} ${com} ${top}`;
    const key = `${way} ${range.min} ${range.max} ${JSON.stringify(want)}`;
    const known = timeless ? byRange.get(key) : undefined;
    const met = known ?? judgeWant(want, waveforms(setting, range), tolerance).met;
    if (timeless) byRange.set(key, met);
    return met === "yes" ? 2 : met === "marginal" ? 1 : 0;
  };
  const free = [want.duty, want.pulse, want.reach, want.idle].every((demand) => demand === undefined);
  if (setting.com === 1 || free) return judged(between(0, setting.top));
  const { duty, pulse, idle } = want;
  const alone: WantedSignal = {
    ...(duty === undefined ? {} : { duty }),
    ...(pulse === undefined ? {} : { pulse }),
    ...(idle === undefined ? {} : { idle }),
  };
  const verdicts = verdictsByCompare(setting, alone, tolerance);
  const grades = [["yes"], ["yes", "marginal"]].map((good): 0 | 1 | 2 => {
    const min = verdicts.findIndex((met) => good.includes(met));
    const max = verdicts.findLastIndex((met) => good.includes(met));
    return min < 0 ? 0 : judged(between(min, max));
  });
  return Math.max(...grades) as 0 | 1 | 2;
}

const byRange = new Map<string, string>();
const byCompare = new Map<string, readonly string[]>();

/** The judge's word on each compare value by itself. Neither mode nor clock matter to a duty beyond the slope. */
function verdictsByCompare(setting: Setting, alone: WantedSignal, tolerance: number): readonly string[] {
  const slope = setting.mode.family.startsWith("phase");
  const key = `${slope} ${setting.com} ${setting.top} ${tolerance} ${JSON.stringify(alone)} ${alone.pulse === undefined ? "" : `${setting.clock} ${setting.clockHz} ${setting.timer.number}`}`;
  let verdicts = byCompare.get(key);
  if (verdicts === undefined) {
    verdicts = Array.from({ length: setting.top + 1 }, (_, compare) => {
      const signals = waveforms(setting, exactly(compare, 16));
      // A level is judged beside pulses: by itself it would be no pulse at all.
      const level = signals.every((signal) => signal.kind === "level");
      const judged = level ? [...signals, ...fittingPulse(alone)] : signals;
      // With a resting level the judge passes constant pins whatever duty is asked: a plan's one range of values is to hold both.
      const { idle: _rest, ...unrested } = alone;
      const both = [alone, unrested].map((demands) => judgeWant(demands, judged, tolerance).met);
      return ["no", "unknown", "marginal", "yes"].find((met) => both.includes(met as "no"))!;
    });
    byCompare.set(key, verdicts);
  }
  return verdicts;
}

/** A pulse that surely has the wanted duty and width, to stand beside a level that is judged. */
function fittingPulse({ duty, pulse }: WantedSignal): Waveform[] {
  const share = duty === undefined ? 0.5 : Math.min(Math.max((duty.min + duty.max) / 2, 1e-6), 1 - 1e-6);
  const width = pulse === undefined ? 0.001 : (pulse.min + pulse.max) / 2;
  const ticks = 1_000_000;
  const hz = { num: Math.round((share / width) * 1e6), den: 1_000_000 };
  return [
    {
      kind: "pulse",
      level: null,
      driver: "timer",
      frequencyHz: { min: hz, max: hz },
      duty: { min: { num: share, den: 1 }, max: { num: share, den: 1 } },
      highTicks: { min: share * ticks, max: share * ticks },
      periodTicks: { min: ticks, max: ticks },
      steps: 256,
      top: { min: 255, max: 255 },
      prescaler: 1,
      because: null,
    },
  ];
}

function costKeys(
  { timer, channel, mode, com, top, chip }: Setting,
  prescaler: number,
  want: WantedSignal,
  timeBase: number | undefined,
  bus: boolean,
  analogWriteUnit: string | undefined,
): string {
  const dual = mode.family.startsWith("phase");
  const pwm = dual || mode.family === "fast";
  const zero =
    want.pulse === undefined &&
    !(want.duty !== undefined && want.duty.min > 0) &&
    !(want.reach !== undefined && want.reach.min > 0);
  const full =
    want.pulse === undefined &&
    !(want.duty !== undefined && want.duty.max < 1) &&
    !(want.reach !== undefined && want.reach.max < 1);
  const keys: string[] = [];
  const add = (condition: boolean, kind: string, port: string | null, hurts = false) => {
    if (condition) keys.push(`${kind} ${port} ${hurts}`);
  };
  const a = timer.channels[0]!;
  add(mode.top.kind === "compareA" && channel !== a, "pin lost", a.port);
  add(timer.number === timeBase && !(!dual && prescaler === 64 && top === 255), "time base", null, true);
  add(com === 1, "fixed duty", channel.port);
  add(pwm && !dual && com === 2 && zero, "spike at zero", channel.port);
  add(com === 3, "inverted", channel.port);
  add(pwm && !dual && com === 3 && full, "gap at full", channel.port);
  add(bus, "bus line", channel.port);
  add(
    chip.modulators.some(({ port }) => port === channel.port) && analogWriteUnit !== channel.unit,
    "second unit",
    channel.port,
  );
  return keys.sort().join(", ");
}

export function keyOf({ grade, error, steps, costs }: Vector): string {
  return `${grade} | ${error === 0 ? 0 : error.toPrecision(9)} | ${steps} | ${costs}`;
}

/** Each compared with each, but for those of equal verdict and costs that a running least error rules out first. */
export function paretoOf(vectors: readonly Vector[]): Vector[] {
  const groups = new Map<string, Vector[]>();
  for (const vector of vectors) {
    const key = `${vector.grade} ${vector.costs}`;
    groups.set(key, [...(groups.get(key) ?? []), vector]);
  }
  const left = [...groups.values()].flatMap((group) => {
    const sorted = group.sort((x, y) => y.steps - x.steps || x.error - y.error);
    let least = Number.POSITIVE_INFINITY;
    return sorted.filter((vector) => {
      const good = vector.error < least;
      least = Math.min(least, vector.error);
      return good;
    });
  });
  const sets = new Map(left.map((vector) => [vector.costs, costSet(vector.costs)]));
  const fewer = new Map<string, boolean>();
  for (const [one, ones] of sets)
    for (const [other, others] of sets)
      fewer.set(
        `${one} < ${other}`,
        [...ones].every((cost) => others.has(cost)),
      );
  // One by one against every group: costs and verdict are the group's, steps and error each vector's own.
  const heirs = [...groups.keys()].map((key) => left.filter((vector) => `${vector.grade} ${vector.costs}` === key));
  return left.filter(
    (own) =>
      !heirs.some(
        (group) =>
          group.length > 0 &&
          group[0]!.grade >= own.grade &&
          fewer.get(`${group[0]!.costs} < ${own.costs}`) === true &&
          group.some((other) => other !== own && dominates(other, own)),
      ),
  );
}

function costSet(costs: string): ReadonlySet<string> {
  return new Set(costs === "" ? [] : costs.split(", "));
}

/** Costs and verdict of `a` are known to be as good. */
function dominates(a: Vector, b: Vector): boolean {
  if (a.error > b.error || a.steps < b.steps) return false;
  return a.grade > b.grade || a.error < b.error || a.steps > b.steps || a.costs !== b.costs;
}

/** The planner's front as vectors, every TOP of every stretch. */
export function vectorsOf({ target, outputs }: PlanRequest, front: readonly FrontStretch[]): Vector[] {
  const { want, port } = outputs[0]!;
  return front.flatMap(({ setting, tops, coms, verdict, costs }) => {
    const timer = target.chip.timers.find((candidate) => candidate.number === setting.timer)!;
    const mode = timer.modes[setting.mode]!;
    const channel = timer.channels.find((candidate) => candidate.port === port)!;
    const near = want.frequency?.hz;
    return Array.from({ length: tops.max - tops.min + 1 }, (_, index): Vector => {
      const top = tops.min + index;
      const com = coms[0]!;
      const period = periodTable({ timer, channel, mode, com }).counts(top) * setting.prescaler;
      const error = near === undefined ? 0 : Math.abs(target.clockHz / period / near - 1);
      return {
        grade: verdict === "yes" ? 2 : 1,
        error: error < 1e-11 ? 0 : error,
        steps: com === 1 ? 1 : top + 1,
        costs: costs
          .map(({ kind, port: at, hurts }) => `${kind} ${at} ${hurts}`)
          .sort()
          .join(", "),
        where: `timer ${timer.number} mode ${mode.select} /${setting.prescaler} TOP ${top} com ${com}`,
      };
    });
  });
}
