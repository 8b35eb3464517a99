/** Pins that tone() and the Servo library pulse from their interrupt routines. */
import type { Target } from "../../shared-model/chip.js";
import { fraction } from "../../shared-model/fraction.js";
import type { Regime } from "../../shared-model/signal.js";
import type { Span } from "../../shared-model/span.js";
import { controlStates } from "../../shared-model/waveforms/control-states.js";
import type { PinSignal } from "../analysis.js";
import type { Bucket } from "../execute/bucket.js";
import type { Layout } from "../execute/hardware/layout.js";

const NOTHING = { steps: null, top: null, when: null, state: null, level: null } as const;

/**
 * Two compare interrupts make one period: f = clock / (2 · N · (OCR2A + 1)), half of it high. Where the sketch has put the
 * timer into normal mode there is one for each round of the counter; in a PWM mode they may come twice a period or not at all.
 */
export function toneSignals(
  bucket: Bucket,
  regime: Regime,
  layout: Layout,
  target: Target,
  pin: number,
  spans: (sites: Iterable<number>) => Span[],
): PinSignal[] {
  const timer = layout.timers.find((candidate) => candidate.fact.number === 2);
  if (timer === undefined) return [];
  const signals: PinSignal[] = [];
  for (const tone of bucket.tones.values()) {
    if (tone.pin !== pin && tone.pin !== null) continue;
    const states = controlStates(timer.fact, tone.snapshot);
    for (const state of states ?? []) {
      if (state.clock.kind !== "divided") continue;
      const { family } = state.mode;
      if (family !== "ctc" && family !== "normal") {
        signals.push(unknownTone("tone() plays it with its timer in another mode", regime, spans(tone.writers)));
        continue;
      }
      const compare = tone.snapshot.working[timer.fact.channels[0]!.compare]!;
      const whole = 2 ** timer.fact.bits - 1;
      signals.push(
        tonePulse(
          family === "ctc" ? compare : { min: whole, max: whole },
          state.clock.by,
          bucket.lateness,
          regime,
          target,
          spans(tone.writers),
        ),
      );
    }
    if (states === null)
      signals.push(unknownTone("tone() plays a frequency that is not known", regime, spans(tone.writers)));
  }
  return signals;
}

function unknownTone(because: string, regime: Regime, from: Span[]): PinSignal {
  return {
    ...NOTHING,
    kind: "unknown",
    driver: "interrupt",
    frequencyHz: null,
    duty: null,
    highTicks: null,
    periodTicks: null,
    prescaler: null,
    because,
    regime,
    from,
  };
}

function tonePulse(
  compare: { readonly min: number; readonly max: number },
  by: number,
  lateness: number,
  regime: Regime,
  target: Target,
  from: Span[],
): PinSignal {
  const half = { min: by * (compare.min + 1), max: by * (compare.max + 1) };
  const common = { ...NOTHING, kind: "pulse", driver: "interrupt", prescaler: by, regime, from } as const;
  if (lateness >= half.min) {
    // The timer keeps the beat; how late its routine comes to a single edge has no bound that is known.
    const average = half.min === half.max ? `, on the average ${showHertz(target.clockHz / (2 * half.min))}` : "";
    return {
      ...common,
      frequencyHz: null,
      duty: null,
      highTicks: null,
      periodTicks: null,
      because: `tone() toggles it from its interrupt routine${average}; interrupts may be held off for longer than its half period`,
    };
  }
  // Every single pulse: its routine may come late at either end.
  const period = { min: 2 * half.min - lateness, max: 2 * half.max + lateness };
  return {
    ...common,
    frequencyHz: { min: fraction(target.clockHz, period.max), max: fraction(target.clockHz, period.min) },
    duty: { min: fraction(half.min - lateness, 2 * half.min), max: fraction(half.min + lateness, 2 * half.min) },
    highTicks: { min: half.min - lateness, max: half.max + lateness },
    periodTicks: period,
    because: "tone() toggles it from its interrupt routine",
  };
}

/** `440 Hz`, to a tenth. */
function showHertz(hertz: number): string {
  return `${Math.round(hertz * 10) / 10} Hz`;
}

/** Pulses of 544 to 2400 µs, every 20 ms with few servos and up to 30 ms with many (the library's limits, from memory). */
export function servoSignal(bucket: Bucket, regime: Regime, pin: number, target: Target): PinSignal[] {
  if (!bucket.servos.has(pin) && !bucket.servos.has(null)) return [];
  const micro = (us: number): number => Math.round((us * target.clockHz) / 1_000_000);
  return [
    {
      ...NOTHING,
      kind: "pulse",
      driver: "interrupt",
      frequencyHz: { min: fraction(33), max: fraction(51) },
      duty: { min: fraction(544 * 33, 1_000_000), max: fraction(2400 * 51, 1_000_000) },
      highTicks: { min: micro(500), max: micro(2450) },
      periodTicks: { min: micro(19_600), max: micro(30_400) },
      prescaler: null,
      because: "the Servo library pulses it from its interrupt routine",
      regime,
      from: [],
    },
  ];
}
