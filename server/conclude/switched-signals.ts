/** Pins that the program itself switches to and fro: what was timed of their pulses, as signals. */
import type { Target } from "../../shared-model/chip.js";
import { type Fraction, fraction } from "../../shared-model/fraction.js";
import type { Regime, Waveform } from "../../shared-model/signal.js";
import type { PinSignal } from "../analysis.js";
import type { Bucket } from "../execute/bucket.js";
import type { Layout } from "../execute/hardware/layout.js";
import { type PulseTimes, pinKey } from "../execute/pulses/pulse-records.js";

const NOTHING = { steps: null, top: null, prescaler: null, level: null, when: null, state: null } as const;
const UNTIMED = { frequencyHz: null, duty: null, highTicks: null, periodTicks: null } as const;

/** An output that the program itself switches. `signals`: what else the pin puts out. */
export function switchedSignals(
  bucket: Bucket,
  regime: Regime,
  layout: Layout,
  target: Target,
  port: string,
  signals: readonly PinSignal[],
): PinSignal[] {
  const fact = target.chip.ports.find((candidate) => candidate.letter === port[1]);
  if (fact === undefined || regime !== "running") return [];
  const output = layout.address(fact.output);
  const entry = bucket.switched.get(output);
  const bit = Number(port[2]);
  const mask = 1 << bit;
  if (entry === undefined) return [];
  const mixed = (((entry.low & entry.highByDuty) | (entry.high & entry.lowByDuty)) & mask) !== 0;
  if (!mixed && (entry.low & entry.high & mask) === 0) return [];
  if (!signals.some((signal) => signal.driver === "port")) return [];
  const byInterrupt = (entry.byInterrupt & mask) !== 0;
  const times = mixed ? null : (bucket.pulses.of(pinKey(output, bit)) ?? null);
  const divisor = times === null ? null : clockDivisor(bucket);
  return [
    {
      ...NOTHING,
      ...(times === null || divisor === null ? UNTIMED : timed(times, target.clockHz, divisor)),
      kind: "pulse",
      driver: byInterrupt ? "interrupt" : "software",
      because: byInterrupt ? "an interrupt routine switches it" : "the program switches it",
      regime,
      from: signals.find((signal) => signal.driver === "port")?.from ?? [],
    },
  ];
}

type Timed = Pick<Waveform, "frequencyHz" | "duty" | "highTicks" | "periodTicks">;

function timed({ period, high, duty }: PulseTimes, clockHz: number, divisor: number): Timed {
  const rate = (cycles: number): Fraction => fraction(clockHz, divisor * cycles);
  return {
    frequencyHz: { min: rate(period.most), max: rate(period.least) },
    duty: { min: fraction(duty.least.part, duty.least.whole), max: fraction(duty.most.part, duty.most.whole) },
    highTicks: { min: high.least, max: high.most },
    periodTicks: { min: period.least, max: period.most },
  };
}

/** What the CPU's clock is divided by, where that is one number throughout. */
function clockDivisor(bucket: Bucket): number | null {
  let found: number | null = null;
  for (const records of bucket.timers) {
    for (const { snapshot } of records.values()) {
      const divisor = snapshot.clockDivisor ?? null;
      if (divisor === null || (found !== null && found !== divisor)) return null;
      found = divisor;
    }
  }
  return found;
}
