/** Verdicts on wants, with signals worked out from register settings. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { RegisterValue } from "../../../shared-model/register-value.js";
import type { Waveform } from "../../../shared-model/signal.js";
import type { WantComment } from "../../../shared-model/wants/comment.js";
import { judgeWant } from "../../../shared-model/wants/judge.js";
import { readComment } from "../../../shared-model/wants/read-comment.js";
import { channelWaveforms } from "../../../shared-model/waveforms/channel-waveforms.js";
import { chipAndTimer, snapshotOf } from "../waveforms/snapshots.js";

function want(text: string): WantComment {
  const [found] = readComment(`// wants D3: ${text}`);
  if (found?.kind !== "want") {
    throw new Error(text);
  }
  return found;
}

/** Timer 2, phase correct with TOP in OCR2A, prescaler 32, pin 3 at the given compare values. */
function phaseCorrect(top: number, compare: RegisterValue | number): Waveform[] {
  const { chip, timer } = chipAndTimer("atmega328p", 2);
  const value: RegisterValue =
    typeof compare === "number" ? { min: compare, max: compare, zeros: 0, ones: 0, values: [compare] } : compare;
  const snapshot = snapshotOf(timer, { mode: 5, clock: 3, com: { B: 2 }, values: { A: top } });
  const channels = snapshot.channels.map((channel) => ({
    ...channel,
    alternatives: channel.alternatives.map((alternative) => ({ ...alternative, compare: value })),
  }));
  return channelWaveforms(chip, timer, { ...snapshot, channels }, timer.channels[1]!, 16_000_000);
}
const between = (min: number, max: number): RegisterValue => ({ min, max, zeros: 0, ones: 0, values: null });
const level = (which: "low" | "high" | null): Waveform => ({
  kind: "level",
  level: which,
  driver: "port",
  frequencyHz: null,
  duty: null,
  highTicks: null,
  periodTicks: null,
  steps: null,
  top: null,
  prescaler: null,
  because: null,
});
const met = (text: string, signals: readonly Waveform[], tolerance = 0.005) =>
  judgeWant(want(text), signals, tolerance).met;

describe("frequency", () => {
  // 980.392 Hz, 1008.065 Hz, 1000 Hz, 1041.667 Hz: DS40002061 section 18.7.4, f = 16 MHz / (2 · 32 · TOP).
  it("is judged nominally and over the clock's tolerance", () => {
    expect(met("1 kHz +-2 %", phaseCorrect(255, 128))).toBe("marginal");
    expect(met("1 kHz +-2 %", phaseCorrect(248, 128))).toBe("yes");
    expect(met("1 kHz +-2 %", phaseCorrect(250, 128))).toBe("yes");
    expect(met("1 kHz +-2 %", phaseCorrect(240, 128))).toBe("no");
    expect(met("1 kHz +-2 %", phaseCorrect(255, 128), 0.0001)).toBe("yes");
  });

  it("says the numbers", () => {
    expect(judgeWant(want("1 kHz +-2 %"), phaseCorrect(255, 128), 0.005).reasons).toEqual([
      "980.392 Hz is inside 980..1020 Hz, but 975.49..985.294 Hz over the clock's ±0.5 % is not",
    ]);
    expect(judgeWant(want("1 kHz +-2 %"), phaseCorrect(240, 128), 0.005).reasons).toEqual([
      "1041.67 Hz is outside 980..1020 Hz",
    ]);
  });

  it("takes the worst of several states", () => {
    const signals = [...phaseCorrect(250, 128), ...phaseCorrect(240, 128)];
    expect(met("1 kHz +-2 %", signals)).toBe("no");
  });
});

describe("a pin without a running pulse", () => {
  it("is no, with the reason", () => {
    expect(met("1 kHz", [])).toBe("no");
    expect(judgeWant(want("1 kHz"), phaseCorrect(0, 128), 0.005)).toEqual({
      met: "no",
      reasons: ["no pulse: the pin is constant (TOP (OCR2A) is 0: the counter does not move, there is no pulse)"],
    });
    expect(met("duty 20..100 %", [level("high")])).toBe("no");
  });

  it("is unknown where the signal is not known", () => {
    const unknown: Waveform = {
      ...level(null),
      kind: "unknown",
      driver: null,
      because: "readSpeed cannot be seen into",
    };
    expect(judgeWant(want("1 kHz"), [unknown], 0.005)).toEqual({
      met: "unknown",
      reasons: ["the signal is not known: readSpeed cannot be seen into"],
    });
    expect(met("1 kHz", [unknown, ...phaseCorrect(250, 128)])).toBe("unknown");
    expect(met("1 kHz", [unknown, ...phaseCorrect(240, 128)])).toBe("no");
  });
});

describe("duty", () => {
  it("is never to leave its bounds, levels count as 0 and 100 %", () => {
    expect(met("duty 20..80 %", phaseCorrect(250, between(50, 200)))).toBe("yes");
    expect(met("duty 20..80 %", phaseCorrect(250, between(49, 200)))).toBe("no");
    expect(met("duty 20..80 %", phaseCorrect(250, between(50, 201)))).toBe("no");
    expect(met("duty 0..100 %", phaseCorrect(250, between(0, 250)))).toBe("yes");
    expect(met("duty 1..100 %", phaseCorrect(250, between(0, 250)))).toBe("no");
    expect(met("duty 0..99 %", phaseCorrect(250, between(0, 250)))).toBe("no");
  });

  it("is not known where a level's sign is not", () => {
    expect(met("duty 5..100 %", phaseCorrect(248, between(100, 255)))).toBe("unknown");
    expect(met("duty 0..100 %", phaseCorrect(248, between(100, 255)))).toBe("yes");
    expect(met("duty 5..90 %", [...phaseCorrect(250, 100), level(null)])).toBe("no");
  });
});

describe("reach", () => {
  it("asks for both ends, to the nearest step", () => {
    expect(met("reach 10..96 %", phaseCorrect(250, between(25, 240)))).toBe("yes");
    expect(met("reach 10..96 %", phaseCorrect(250, between(27, 240)))).toBe("no");
    expect(met("reach 10..96 %", phaseCorrect(250, between(25, 238)))).toBe("no");
    expect(met("reach 0..100 %", phaseCorrect(250, between(0, 250)))).toBe("yes");
    expect(judgeWant(want("reach 10..96 %"), phaseCorrect(250, between(50, 200)), 0).reasons).toEqual([
      "duty 20..80 % never gets down to 10 % and never gets up to 96 %",
    ]);
  });
});

describe("pulse widths and steps", () => {
  // Servo: timer 1, mode 14, ICR1 = 39999, prescaler 8: half a microsecond per count.
  const servo = (min: number, max: number) => {
    const { chip, timer } = chipAndTimer("atmega328p", 1);
    const snapshot = snapshotOf(timer, { mode: 14, clock: 2, com: { A: 2 }, values: { ICR: 39999 } });
    const channels = snapshot.channels.map((channel) => ({
      ...channel,
      alternatives: channel.alternatives.map((alternative) => ({ ...alternative, compare: between(min, max) })),
    }));
    return channelWaveforms(chip, timer, { ...snapshot, channels }, timer.channels[0]!, 16_000_000);
  };

  it("judges widths nominally and over the tolerance", () => {
    expect(met("pulse 1000..2000 us every 20 ms", servo(2199, 3799))).toBe("yes");
    expect(met("pulse 1000..2000 us every 20 ms", servo(1999, 3999))).toBe("marginal");
    expect(met("pulse 1000..2000 us every 20 ms", servo(1998, 3999))).toBe("no");
    expect(met("pulse 1000..2000 us every 20 ms", servo(1999, 3999), 0)).toBe("yes");
    expect(met("hobby-servo", servo(2199, 3799))).toBe("yes");
  });

  it("counts steps", () => {
    expect(met("249 steps", phaseCorrect(248, 100))).toBe("yes");
    expect(met("250 steps", phaseCorrect(248, 100))).toBe("no");
    expect(judgeWant(want("250 steps"), phaseCorrect(248, 100), 0).reasons).toEqual([
      "only 249 duty steps, 250 wanted",
    ]);
    expect(met("2 steps", [{ ...phaseCorrect(248, 100)[0]!, steps: null }])).toBe("unknown");
  });
});

it("is never worse with a better clock, and always gives a reason", () => {
  const order = ["yes", "marginal", "unknown", "no"];
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 255 }),
      fc.integer({ min: 0, max: 255 }),
      fc.double({ min: 0, max: 0.1, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.constantFrom(
        "1 kHz +-2 %",
        "duty 20..80 %",
        "reach 10..90 %",
        "pulse 100..900 us",
        "200 steps",
        "1 kHz, duty 5..95 %, 100 steps",
      ),
      (top, compare, tolerance, share, text) => {
        const signals = phaseCorrect(top, compare);
        const loose = judgeWant(want(text), signals, tolerance);
        const tight = judgeWant(want(text), signals, tolerance * share);
        expect(order.indexOf(tight.met)).toBeLessThanOrEqual(order.indexOf(loose.met));
        expect(loose.reasons.length).toBeGreaterThan(0);
      },
    ),
  );
});
