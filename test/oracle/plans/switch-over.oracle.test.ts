/**
 * The register code at the moment of the switch-over, on the simulated chip: random settings of all timers but the core's,
 * after the pin was at rest, under pulses of the core's own setting, or under a fast wave with the port high. No pulse from the
 * stop on is longer than what is commanded, the one under way ends at once, and what follows has exactly the width that the
 * data sheet's formulas give.
 */
import { beforeAll, describe, expect, test } from "vitest";
import { UNDERSCORE_BV } from "../../../server/look/naming.js";
import { timerCode } from "../../../server/plans/timer-code.js";
import { findChip } from "../../../shared-model/chips/chips.js";
import { chipOf, compileSketch, coreArchive } from "../compile.js";
import { Dice } from "../generate/dice.js";
import { Machine } from "../machine.js";
import { PulseWatch } from "./pulse-watch.js";

const CASES = 40;
/** A few instructions lie between the write that stops the clock and the one that pulls the pin low. */
const STOP_CYCLES = 12;

beforeAll(async () => {
  await coreArchive("nano");
  await coreArchive("mega");
});

interface Case {
  readonly board: "nano" | "mega";
  readonly text: string;
  readonly port: string;
  readonly timer: number;
  readonly period: number;
  readonly high: number;
}

function drawn(seed: number): Case {
  const dice = new Dice(seed);
  const board = dice.chance(35) ? "mega" : "nano";
  const chip = findChip(board === "mega" ? "atmega2560" : "atmega328p")!;
  const timer = dice.pick(chip.timers.filter(({ number }) => number !== 0));
  const mode = dice.pick(timer.modes.filter(({ family }) => family === "fast" || family.startsWith("phase")));
  const topRegister =
    mode.top.kind === "capture" ? timer.capture! : mode.top.kind === "compareA" ? timer.channels[0]!.compare : null;
  const channel = dice.pick(timer.channels.filter(({ compare }) => compare !== topRegister));
  const top = mode.top.kind === "fixed" ? mode.top.value : dice.int(20, timer.bits === 8 ? 255 : 3_000);
  const value = dice.int(10, top - 1);
  const com = dice.chance(25) ? 3 : 2;
  const clock = dice.int(1, 3);
  const source = timer.clocks[clock]!;
  const prescaler = source.kind === "divided" ? source.by : 0;
  const code = timerCode({
    chip,
    setting: { timer: timer.number, mode: mode.select, clock, top, topRegister },
    units: [{ unit: channel.unit, com, value, mayBeHigh: true }],
    keepsCapture: false,
    guard: null,
    style: UNDERSCORE_BV,
    remark: null,
  });
  const [letter, bit] = [channel.port[1], channel.port[2]];
  const output = `DDR${letter} |= _BV(${bit});`;
  const duty = dice.int(20, 180);
  const n = timer.number;
  const before = dice.pick([
    "",
    `${output} ${channel.compare} = ${duty}; TCCR${n}A |= _BV(${channel.com.name}1); delayMicroseconds(${dice.int(0, 5_000)});`,
    `TCCR${n}A = _BV(${channel.com.name}1) | 3; TCCR${n}B = 0x09; ${channel.compare} = ${duty}; ${output} PORT${letter} |= _BV(${bit}); delayMicroseconds(${dice.int(0, 300)});`,
  ]);
  const dual = mode.family !== "fast";
  const counts = com === 2 ? (dual ? 2 * value : value + 1) : dual ? 2 * (top - value) : top - value;
  return {
    board,
    text: `void setup() {\n${before}\n${code.join("\n")}\n${output}\n}\nvoid loop() {}\n`,
    port: channel.port,
    timer: n,
    period: prescaler * (dual ? 2 * top : top + 1),
    high: prescaler * counts,
  };
}

describe("no pulse is longer than commanded", () => {
  test.each(Array.from({ length: CASES }, (_, index) => index + 1))("setting %i", async (seed) => {
    const { board, text, port, timer, period, high } = drawn(seed);
    const image = await compileSketch({ path: "sketch.ino", text }, board);
    const watch = new PulseWatch(port, timer);
    const machine = new Machine(chipOf(board), image.flash, { observer: watch });
    watch.machine = machine;
    machine.run(200_000 + 12 * period);
    const stop = watch.stops.at(-1)!;
    const after = watch.pulses.filter(({ fall }) => fall > stop);
    const underWay = after.filter(({ rise, byTimer }) => rise < stop && byTimer);
    expect(
      underWay.filter(({ fall }) => fall > stop + STOP_CYCLES),
      text,
    ).toEqual([]);
    const widths = after.filter(({ rise }) => rise >= stop).map(({ rise, fall }) => fall - rise);
    expect(
      widths.filter((width) => width > Math.max(high, STOP_CYCLES)),
      text,
    ).toEqual([]);
    expect(widths.length, text).toBeGreaterThan(4);
    expect(new Set(widths.slice(-4)), text).toEqual(new Set([high]));
  });
});
