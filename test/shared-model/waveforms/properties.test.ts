/**
 * Laws of the waveform engine: its formulas agree with counting tick by tick, and what it says of a partly known state
 * contains what it says of every state that this one may be.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { TimerFact } from "../../../shared-model/chip.js";
import { compareFractions, type Fraction } from "../../../shared-model/fraction.js";
import type { Known, RegisterValue } from "../../../shared-model/register-value.js";
import type { Bounds, Waveform } from "../../../shared-model/signal.js";
import type { ChannelAlternative, TimerSnapshot } from "../../../shared-model/timer-snapshot.js";
import { channelWaveforms } from "../../../shared-model/waveforms/channel-waveforms.js";
import { countOutput } from "./counting.js";
import { chipAndTimer, controlRegisters, snapshotOf } from "./snapshots.js";

const clockHz = 16_000_000;

describe("formulas against counting", () => {
  for (const [id, number, tops] of [
    ["atmega328p", 0, [1, 2, 3, 7, 100, 255]],
    ["atmega328p", 1, [3, 4, 9, 40]],
  ] as const) {
    const { chip, timer } = chipAndTimer(id, number);
    for (const mode of timer.modes.filter(
      (candidate) => candidate.family !== "reserved" && !(candidate.top.kind === "fixed" && candidate.top.value > 255),
    )) {
      it(`${id} timer ${number}, mode ${mode.select} (${mode.family})`, () => {
        const used = mode.top.kind === "fixed" ? [mode.top.value] : tops;
        let checked = 0;
        for (const top of used) {
          for (const compare of [
            ...new Set([0, 1, 2, top >> 1, top - 1, top, top + 1].filter((value) => value >= 0 && value < 256)),
          ]) {
            for (const com of [1, 2, 3] as const) {
              for (const channel of timer.channels.slice(0, 2)) {
                const own = mode.top.kind === "compareA" && channel.letter === "A";
                const values = {
                  [channel.letter]: own ? top : compare,
                  ICR: top,
                  ...(mode.top.kind === "compareA" ? { A: top } : {}),
                };
                const snapshot = snapshotOf(timer, {
                  mode: mode.select,
                  clock: 1,
                  com: { [channel.letter]: com },
                  values,
                });
                const [waveform] = channelWaveforms(chip, timer, snapshot, channel, clockHz);
                if (waveform!.driver !== "timer") {
                  continue;
                }
                const counted = countOutput(mode, com, top, own ? top : compare);
                checked++;
                if (counted.pulse !== null) {
                  expect([waveform!.kind, waveform!.highTicks?.min, waveform!.periodTicks?.min]).toEqual([
                    "pulse",
                    counted.pulse.high,
                    counted.pulse.period,
                  ]);
                } else {
                  expect(waveform!.kind).toBe("level");
                  // Where counting depends on the level before, the engine must leave it open.
                  expect([waveform!.level]).toEqual(counted.levels.length === 1 ? [counted.levels[0]] : [null]);
                }
              }
            }
          }
        }
        expect(checked).toBeGreaterThan(0);
      });
    }
  }
});

/** One fully known state of a timer. */
interface World {
  readonly mode: number;
  readonly clock: number;
  readonly com: number;
  readonly values: Readonly<Record<string, number>>;
  readonly output: boolean;
  readonly high: boolean;
  readonly powered: boolean;
  readonly held: boolean;
  readonly asynchronous: boolean;
}

function worldOf(timer: TimerFact): fc.Arbitrary<World> {
  const limit = 2 ** timer.bits - 1;
  const value = fc.oneof(
    fc.integer({ min: 0, max: 8 }),
    fc.integer({ min: 0, max: limit }),
    fc.constantFrom(limit, limit - 1, 255, 256 % (limit + 1)),
  );
  return fc.record({
    mode: fc.integer({ min: 0, max: timer.modes.length - 1 }),
    clock: fc.integer({ min: 0, max: 7 }),
    com: fc.integer({ min: 0, max: 3 }),
    values: fc.record({ A: value, B: value, C: value, ICR: value }),
    output: fc.oneof({ weight: 9, arbitrary: fc.constant(true) }, { weight: 1, arbitrary: fc.constant(false) }),
    high: fc.boolean(),
    powered: fc.oneof({ weight: 9, arbitrary: fc.constant(true) }, { weight: 1, arbitrary: fc.constant(false) }),
    held: fc.oneof({ weight: 9, arbitrary: fc.constant(false) }, { weight: 1, arbitrary: fc.constant(true) }),
    asynchronous:
      timer.asynchronous === undefined
        ? fc.constant(false)
        : fc.oneof({ weight: 9, arbitrary: fc.constant(false) }, { weight: 1, arbitrary: fc.constant(true) }),
  });
}

function concrete(timer: TimerFact, letter: string, world: World): TimerSnapshot {
  const snapshot = snapshotOf(
    timer,
    { ...world, com: { [letter]: world.com } },
    { powered: world.powered, held: world.held, asynchronous: world.asynchronous },
  );
  return {
    ...snapshot,
    channels: snapshot.channels.map((channel) => ({
      ...channel,
      alternatives: channel.alternatives.map((alternative) => ({
        ...alternative,
        output: world.output,
        high: world.high,
      })),
    })),
  };
}

/** Joins values: as a list, or as bounds and bits only. */
function joined(values: readonly number[], bits: number, asList: boolean): RegisterValue {
  const all = 2 ** bits - 1;
  const distinct = [...new Set(values)].sort((a, b) => a - b);
  return {
    min: distinct[0]!,
    max: distinct[distinct.length - 1]!,
    ones: distinct.reduce((mask, value) => mask & value, all),
    zeros: distinct.reduce((mask, value) => mask & ~value, all),
    values: asList ? distinct : null,
  };
}
const agreed = (values: readonly boolean[]): Known =>
  values.every((value) => value === values[0]) ? values[0]! : null;

function abstract(
  timer: TimerFact,
  letter: string,
  worlds: readonly World[],
  asList: boolean,
  apart: boolean,
): TimerSnapshot {
  const control = worlds.map((world) => controlRegisters(timer, { ...world, com: { [letter]: world.com } }));
  const registers: Record<string, RegisterValue> = {};
  for (const name of timer.control) {
    registers[name] = joined(
      control.map((registersOf) => registersOf[name]!),
      8,
      asList,
    );
  }
  const working: Record<string, RegisterValue> = {};
  for (const channel of timer.channels) {
    working[channel.compare] = joined(
      worlds.map((world) => world.values[channel.letter]!),
      timer.bits,
      asList,
    );
  }
  if (timer.capture !== undefined) {
    working[timer.capture] = joined(
      worlds.map((world) => world.values["ICR"]!),
      16,
      asList,
    );
  }
  const alternativeOf = (some: readonly World[]): ChannelAlternative => ({
    com: joined(
      some.map((world) => world.com),
      2,
      asList,
    ),
    compare: joined(
      some.map((world) => world.values[letter]!),
      timer.bits,
      asList,
    ),
    output: agreed(some.map((world) => world.output)),
    high: agreed(some.map((world) => world.high)),
  });
  return {
    timer: timer.number,
    registers: { ...registers, ...working },
    working,
    channels: [
      {
        unit: `OC${timer.number}${letter}`,
        alternatives: apart ? worlds.map((world) => alternativeOf([world])) : [alternativeOf(worlds)],
      },
    ],
    powered: agreed(worlds.map((world) => world.powered)),
    held: agreed(worlds.map((world) => world.held)),
    asynchronous: agreed(worlds.map((world) => world.asynchronous)),
    clockDivisor: 1,
  };
}

function contains(wider: Waveform, narrower: Waveform): boolean {
  if (wider.kind === "unknown") {
    return true;
  }
  if (wider.kind !== narrower.kind || wider.driver !== narrower.driver) {
    return false;
  }
  if (wider.kind === "level") {
    return wider.level === null || wider.level === narrower.level;
  }
  if (wider.kind !== "pulse") {
    return true;
  }
  const numbers = (a: Bounds<number> | null, b: Bounds<number> | null) => a!.min <= b!.min && b!.max <= a!.max;
  const fractions = (a: Bounds<Fraction> | null, b: Bounds<Fraction> | null) =>
    compareFractions(a!.min, b!.min) <= 0 && compareFractions(b!.max, a!.max) <= 0;
  return (
    fractions(wider.frequencyHz, narrower.frequencyHz) &&
    fractions(wider.duty, narrower.duty) &&
    numbers(wider.highTicks, narrower.highTicks) &&
    numbers(wider.periodTicks, narrower.periodTicks) &&
    numbers(wider.top, narrower.top) &&
    (wider.steps === null || wider.steps === narrower.steps)
  );
}

describe("partly known states", () => {
  const places: readonly (readonly [string, number, string])[] = [
    ["atmega328p", 0, "A"],
    ["atmega328p", 1, "A"],
    ["atmega328p", 1, "B"],
    ["atmega328p", 2, "B"],
    ["atmega2560", 3, "C"],
  ];
  it.each(places)("%s timer %i channel %s: contain every state that they may be", (id, number, letter) => {
    const { chip, timer } = chipAndTimer(id, number);
    const channel = timer.channels.find((candidate) => candidate.letter === letter)!;
    fc.assert(
      fc.property(
        fc.array(worldOf(timer), { minLength: 1, maxLength: 4 }),
        fc.boolean(),
        fc.boolean(),
        fc.constantFrom("free", "same control", "same control and TOP"),
        (raw, asList, apart, relation) => {
          const first = raw[0]!;
          const worlds = raw.map((world) =>
            relation === "free"
              ? world
              : {
                  ...world,
                  mode: first.mode,
                  clock: first.clock,
                  com: first.com,
                  output: first.output,
                  ...(relation === "same control"
                    ? {}
                    : { values: { ...world.values, A: first.values["A"]!, ICR: first.values["ICR"]! } }),
                },
          );
          const whole = channelWaveforms(chip, timer, abstract(timer, letter, worlds, asList, apart), channel, clockHz);
          for (const world of worlds) {
            for (const waveform of channelWaveforms(chip, timer, concrete(timer, letter, world), channel, clockHz)) {
              const holder = whole.some((candidate) => contains(candidate, waveform));
              if (!holder) {
                throw new Error(`${show(waveform)} is not in ${whole.map(show).join(" | ")}`);
              }
            }
          }
        },
      ),
      { numRuns: 800 },
    );
  });

  it.each(places)("%s timer %i channel %s: exact bounds over every pair of a small rectangle", (id, number, letter) => {
    const { chip, timer } = chipAndTimer(id, number);
    const channel = timer.channels.find((candidate) => candidate.letter === letter)!;
    const small = fc.tuple(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 0, max: 6 }));
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: timer.modes.length - 1 }),
        fc.integer({ min: 1, max: 3 }),
        small,
        small,
        (mode, com, [topFrom, topWidth], [compareFrom, compareWidth]) => {
          const own = timer.modes[mode]!.top.kind === "compareA" && letter === "A";
          const worlds: World[] = [];
          for (let top = topFrom; top <= topFrom + topWidth; top++) {
            for (let compare = compareFrom; compare <= compareFrom + (own ? 0 : compareWidth); compare++) {
              const values = { A: top, B: compare, C: compare, ICR: top, [letter]: own ? top : compare };
              // In a mode with TOP in OCRnA, channel A's register is TOP; elsewhere it is the compare value.
              const fixedA = letter === "A" && !own ? { A: compare } : {};
              worlds.push({
                mode,
                clock: 1,
                com,
                values: { ...values, ...fixedA },
                output: true,
                high: false,
                powered: true,
                held: false,
                asynchronous: false,
              });
            }
          }
          const whole = channelWaveforms(chip, timer, abstract(timer, letter, worlds, false, false), channel, clockHz);
          const each = worlds.flatMap((world) =>
            channelWaveforms(chip, timer, concrete(timer, letter, world), channel, clockHz),
          );
          const kinds = (list: readonly Waveform[]) =>
            [...new Set(list.map((waveform) => `${waveform.kind} ${waveform.level} ${waveform.driver}`))].sort();
          expect(kinds(whole)).toEqual(kinds(each));
          const pulses = each.filter((waveform) => waveform.kind === "pulse");
          const pulse = whole.find((waveform) => waveform.kind === "pulse");
          if (pulse !== undefined) {
            const highs = pulses.map((waveform) => waveform.highTicks!.min);
            expect(pulse.highTicks).toEqual({ min: Math.min(...highs), max: Math.max(...highs) });
            const duties = pulses.map((waveform) => waveform.duty!.min).sort(compareFractions);
            expect(pulse.duty).toEqual({ min: duties[0], max: duties[duties.length - 1] });
            const frequencies = pulses.map((waveform) => waveform.frequencyHz!.min).sort(compareFractions);
            expect(pulse.frequencyHz).toEqual({ min: frequencies[0], max: frequencies[frequencies.length - 1] });
          }
        },
      ),
      { numRuns: 400 },
    );
  });
});

function show(waveform: Waveform): string {
  const { kind, level, driver, highTicks, periodTicks, because } = waveform;
  return JSON.stringify({ kind, level, driver, highTicks, periodTicks, because });
}
