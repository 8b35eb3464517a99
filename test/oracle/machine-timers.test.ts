/**
 * The machine's timers against closed-form.ts: every mode of every timer of both chips × prescaler × COM × compare
 * extremes. Registers are written as the CPU would write them; the clock is then moved by hand, so no compiler is needed.
 */
import { describe, expect, it } from "vitest";
import { ATMEGA328P, ATMEGA2560, type ChipMap, type TimerMap } from "./chip-map.js";
import { type Expected, expectedOutput } from "./closed-form.js";
import { Machine } from "./machine.js";
import type { Pin } from "./ports.js";

interface Seen {
  edges: { level: 0 | 1; cycle: number }[];
}

/** A machine whose CPU does nothing, with every edge of one pin written down. */
function bench(map: ChipMap, port: string) {
  const seen: Seen = { edges: [] };
  const machine = new Machine(map, new Uint8Array(0), {
    observer: {
      edge: (pin: Pin, cycle) => {
        if (pin.name === port) seen.edges.push({ level: pin.level, cycle });
      },
      rewired() {},
      disturbed() {},
      entered() {},
      interrupted() {},
    },
  });
  const pin = machine.ports.named(port);
  machine.cpu.writeData(map.ports[pin.port]!.pin + 1, 1 << pin.bit);
  return { machine, seen, pin };
}

function write16(machine: Machine, address: number, value: number): void {
  machine.cpu.writeData(address + 1, value >> 8);
  machine.cpu.writeData(address, value & 0xff);
}

function pass(machine: Machine, cycles: number): void {
  machine.cpu.cycles += cycles;
  machine.syncAll();
}

interface Setting {
  wgm: number;
  cs: number;
  com: number;
  channel: number;
  compares: number[];
  capture: number;
}

function observe(map: ChipMap, timer: TimerMap, setting: Setting): { expected: Expected; actual: Expected | string } {
  const { machine, seen, pin } = bench(map, timer.channels[setting.channel]!.port);
  const { cpu } = machine;
  // Compare and capture registers first, while the reset state (normal mode) takes them whole and at once.
  timer.channels.forEach(({ ocr }, index) => {
    if (timer.bits === 16) write16(machine, ocr, setting.compares[index]!);
    else cpu.writeData(ocr, setting.compares[index]!);
  });
  if (timer.icr !== undefined) write16(machine, timer.icr, setting.capture);
  const high = timer.bits === 8 ? (setting.wgm & 4) << 1 : (setting.wgm & 0xc) << 1;
  cpu.writeData(timer.tccrA, (setting.com << timer.channels[setting.channel]!.comShift) | (setting.wgm & 3));
  cpu.writeData(timer.tccrB, high | setting.cs);
  const prescaler = timer.divisors[setting.cs]!;
  const expected = expectedOutput({
    bits: timer.bits,
    wgm: setting.wgm,
    prescaler,
    channel: timer.channels[setting.channel]!.letter,
    com: setting.com,
    compare: setting.compares[setting.channel]!,
    compareA: setting.compares[0]!,
    capture: setting.capture,
  });
  // The counter starts from 0, so the state is steady after one turn; TOP is asked only for how long to look.
  const span = Math.max(1, prescaler) * 2 * (machine.timers[map.timers.indexOf(timer)]!.top + 1);
  pass(machine, 2 * span);
  seen.edges.length = 0;
  pass(machine, 5 * (expected.kind === "pulse" ? expected.periodTicks : span));
  if (!pin.connected) return { expected, actual: expected.kind === "reserved" ? expected : { kind: "disconnected" } };
  if (expected.kind === "reserved") return { expected, actual: expected };
  if (seen.edges.length === 0) {
    const level = expected.kind === "level" && expected.level === null ? null : pin.level;
    return { expected, actual: { kind: "level", level } };
  }
  const rises = seen.edges.filter(({ level }) => level === 1);
  const falls = seen.edges.filter(({ level }) => level === 0);
  const periods = new Set(rises.slice(1).map((edge, index) => edge.cycle - rises[index]!.cycle));
  const widths = new Set(
    rises.slice(0, -1).map((edge) => falls.find(({ cycle }) => cycle > edge.cycle)!.cycle - edge.cycle),
  );
  if (periods.size !== 1 || widths.size !== 1) return { expected, actual: `uneven: ${[...periods]} / ${[...widths]}` };
  return { expected, actual: { kind: "pulse", periodTicks: [...periods][0]!, highTicks: [...widths][0]! } };
}

function* settings(timer: TimerMap): Generator<Setting> {
  const max = timer.bits === 8 ? 255 : 65535;
  const selects = timer.bits === 8 ? 8 : 16;
  // Large TOPs at the slowest clocks would only cost time: the counting is the same at every clock.
  for (let wgm = 0; wgm < selects; wgm++) {
    for (const cs of [0, 1, 2, 3, 4, 5, 6, 7]) {
      const divisor = timer.divisors[cs]!;
      if (divisor < 0) continue;
      for (let com = 0; com < 4; com++) {
        for (let channel = 0; channel < timer.channels.length; channel++) {
          const tops = timer.bits === 8 ? [0, 1, 7, 248, max] : divisor <= 8 ? [0, 3, 99, 7999, max] : [0, 3, 999];
          for (const top of tops) {
            for (const own of new Set([0, 1, top >> 1, Math.max(0, top - 1), top, Math.min(max, top + 1), 63, max])) {
              const compares = timer.channels.map((_, index) => (index === channel ? own : 5));
              const topIsA = timer.bits === 8 ? [2, 5, 7].includes(wgm) : [4, 9, 11, 15].includes(wgm);
              if (topIsA && channel === 0 && own !== top) continue;
              if (topIsA) compares[0] = top;
              yield { wgm, cs, com, channel, compares, capture: top };
            }
          }
        }
      }
    }
  }
}

describe.each([
  ["atmega328p", ATMEGA328P],
  ["atmega2560", ATMEGA2560],
] as const)("%s", (_name, map) => {
  const timers = map === ATMEGA328P ? map.timers : map.timers.filter(({ number }) => [0, 1, 5].includes(number));
  it.each(timers.map((timer) => [timer.number, timer] as const))(
    "timer %i puts out what the data sheet's formulas say in every mode",
    (_number, timer) => {
      let states = 0;
      const wrong: string[] = [];
      for (const setting of settings(timer)) {
        // A fixed sample of the 16-bit states: the whole product takes minutes and repeats itself.
        if (timer.bits === 16 && states > 0 && hash(setting) % 2 !== 0) continue;
        states++;
        const { expected, actual } = observe(map, timer, setting);
        if (JSON.stringify(expected) !== JSON.stringify(actual)) {
          wrong.push(
            `${JSON.stringify(setting)}: sheet ${JSON.stringify(expected)}, machine ${JSON.stringify(actual)}`,
          );
        }
      }
      expect(wrong).toEqual([]);
      expect(states).toBeGreaterThanOrEqual(300);
    },
    120_000,
  );
});

function hash(setting: Setting): number {
  let value = 17;
  for (const part of [setting.wgm, setting.cs, setting.com, setting.channel, ...setting.compares, setting.capture]) {
    value = (value * 31 + part) % 1_000_003;
  }
  return value;
}
