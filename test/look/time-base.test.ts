/**
 * What the core's clocks become, compared with the core's own algorithm run step by step on a counted timer 0: overflow
 * routine, micros and delay as in wiring.c of the packaged core (ArduinoCore-avr 1.8.7).
 */
import { describe, expect, it } from "vitest";
import { timeBaseOf } from "../../server/look/time-base.js";
import { exactly } from "../../shared-model/register-value.js";
import { resolveTarget } from "../../shared-model/target.js";
import type { TimerSnapshot } from "../../shared-model/timer-snapshot.js";

const answer = resolveTarget({});
if ("problem" in answer) throw new Error(answer.problem);
const timer = answer.target.chip.timers.find((candidate) => candidate.number === 0)!;

function snapshot(tccr0a: number, tccr0b: number, ocr0a: number): TimerSnapshot {
  return {
    timer: 0,
    registers: {
      TCCR0A: exactly(tccr0a, 8),
      TCCR0B: exactly(tccr0b, 8),
      OCR0A: exactly(ocr0a, 8),
      OCR0B: exactly(0, 8),
    },
    working: { OCR0A: exactly(ocr0a, 8) },
    channels: [],
    powered: true,
    held: false,
    asynchronous: false,
    clockDivisor: 1,
  };
}

interface Counter {
  /** Counter value at a CPU cycle, and overflows so far. */
  at(cycle: number): { readonly count: number; readonly overflows: number };
}

function single(top: number, by: number, overflows: boolean): Counter {
  return {
    at(cycle) {
      const ticks = Math.floor(cycle / by);
      return { count: ticks % (top + 1), overflows: overflows ? Math.floor(ticks / (top + 1)) : 0 };
    },
  };
}

function dual(top: number, by: number): Counter {
  return {
    at(cycle) {
      const ticks = Math.floor(cycle / by);
      const place = ticks % (2 * top);
      return { count: place <= top ? place : 2 * top - place, overflows: Math.floor(ticks / (2 * top)) };
    },
  };
}

/** The core: micros in µs at 16 MHz, and real milliseconds that delay(wanted) takes, asking about every 60 cycles. */
function delayTakes(counter: Counter, wanted: number, start: number, limit: number): number {
  const micros = (cycle: number) => {
    const { count, overflows } = counter.at(cycle);
    return ((overflows * 256 + count) * 4) >>> 0;
  };
  let cycle = start;
  let from = micros(cycle);
  let left = wanted;
  while (left > 0 && cycle < limit) {
    cycle += 60;
    while (left > 0 && (micros(cycle) - from) >>> 0 >= 1000) {
      left -= 1;
      from = (from + 1000) >>> 0;
    }
  }
  return left > 0 ? Number.POSITIVE_INFINITY : (cycle - start) / 16_000;
}

const cases: readonly {
  readonly name: string;
  readonly registers: [number, number, number];
  readonly counter: Counter;
  readonly on: boolean;
}[] = [
  { name: "as the core sets it", registers: [3, 3, 0], counter: single(255, 64, true), on: true },
  { name: "prescaler 1", registers: [3, 1, 0], counter: single(255, 1, true), on: true },
  { name: "prescaler 1024", registers: [3, 5, 0], counter: single(255, 1024, true), on: true },
  { name: "fast PWM with TOP 99", registers: [3, 0x0b, 99], counter: single(99, 64, true), on: true },
  { name: "normal mode", registers: [0, 3, 0], counter: single(255, 64, true), on: true },
  { name: "phase correct", registers: [1, 3, 0], counter: dual(255, 64), on: true },
  { name: "CTC with TOP 99", registers: [2, 3, 99], counter: single(99, 64, false), on: true },
  { name: "CTC with TOP 255", registers: [2, 3, 255], counter: single(255, 64, true), on: true },
  { name: "overflow interrupt off", registers: [3, 3, 0], counter: single(255, 64, false), on: false },
];

describe("the core's clocks on a changed timer 0", () => {
  for (const { name, registers, counter, on } of cases) {
    it(name, () => {
      const base = timeBaseOf(timer, snapshot(...registers), on);
      const start = 20_000;
      const wanted = 40;
      const limit = start + 16_000 * 3000;
      const taken = delayTakes(counter, wanted, start, limit);
      if (base.delay.kind === "paced") {
        // The core's clock ticks in overflows: one more or less is within its own grain.
        const grain = (1 / base.delay.factor) * 1.1;
        expect(Math.abs(taken - wanted / base.delay.factor)).toBeLessThan(grain + 0.1);
      } else {
        expect(base.delay.kind).toBe("runs back");
        expect(taken).toBeLessThan(wanted / 4);
      }
      const end = start + 16_000 * 1000;
      const overflows = counter.at(end).overflows - counter.at(start).overflows;
      // 1.024 ms for each overflow: 1 ms and 3/125 of one.
      if (base.millis.kind === "paced") expect(overflows * 1.024).toBeCloseTo(1000 * base.millis.factor, -1);
      else expect(overflows).toBe(0);
    });
  }

  it("stands still without a clock", () => {
    expect(timeBaseOf(timer, snapshot(3, 0, 0), true).delay).toEqual({ kind: "stopped" });
  });
});
