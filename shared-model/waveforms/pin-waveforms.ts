/**
 * What one pin puts out where its timers are taken together: the channel's own waveforms, or, on a pin that two compare
 * units share, what the output compare modulator makes of both.
 */
import type { ChannelFact, Chip, TimerFact } from "../chip.js";
import { exactly } from "../register-value.js";
import type { Waveform } from "../signal.js";
import type { ChannelAlternative, TimerSnapshot } from "../timer-snapshot.js";
import { channelWaveforms, type Output, singleOutput, unknown } from "./channel-waveforms.js";
import { type KeyedWaveform, mergeKeyed } from "./merge.js";
import { maskedMembers } from "./register-members.js";

/**
 * The waveforms of the pin `port` (`PB7`), from one snapshot of every timer that has a unit there. Empty where no unit
 * of the given snapshots is on the pin.
 *
 * The modulator (ATmega640/1280/1281/2560/2561 data sheet, section 19): where both units are connected the pin is their
 * logical AND with the PORT bit 0, their OR with the PORT bit 1; where one is connected it has the pin alone.
 */
export function pinWaveforms(
  chip: Chip,
  port: string,
  snapshots: readonly TimerSnapshot[],
  clockHz: number,
): Waveform[] {
  const units = unitsOf(chip, port, snapshots);
  const [first, second] = units;
  if (first === undefined) {
    return [];
  }
  if (second === undefined) {
    return channelWaveforms(chip, first.timer, first.snapshot, first.channel, clockHz);
  }
  const cases = outputCases(chip, first, clockHz).flatMap((left) =>
    outputCases(chip, second, clockHz)
      .filter((right) => couldBeTogether(left.alternative, right.alternative))
      .flatMap((right) => together(left, right, port)),
  );
  return mergeKeyed(cases);
}

interface Unit {
  readonly timer: TimerFact;
  readonly channel: ChannelFact;
  readonly snapshot: TimerSnapshot;
}

function unitsOf(chip: Chip, port: string, snapshots: readonly TimerSnapshot[]): Unit[] {
  return snapshots.flatMap((snapshot) =>
    chip.timers
      .filter((timer) => timer.number === snapshot.timer)
      .flatMap((timer) =>
        timer.channels.filter((channel) => channel.port === port).map((channel) => ({ timer, channel, snapshot })),
      ),
  );
}

interface OutputCase {
  readonly alternative: ChannelAlternative;
  readonly output: Output;
}

function outputCases(chip: Chip, unit: Unit, clockHz: number): OutputCase[] {
  const alternatives = unit.snapshot.channels.find((channel) => channel.unit === unit.channel.unit)?.alternatives ?? [];
  return alternatives.flatMap((alternative) =>
    maskedMembers(alternative.com, 3).flatMap((com) =>
      singleOutput(chip, unit.timer, unit.snapshot, unit.channel, clockHz, {
        ...alternative,
        com: exactly(com, 2),
      }).map((output) => ({ alternative, output })),
    ),
  );
}

/** Both units look at the same pin: cases that disagree on its direction or PORT bit do not happen together. */
function couldBeTogether(left: ChannelAlternative, right: ChannelAlternative): boolean {
  const agree = (a: boolean | null, b: boolean | null) => a === null || b === null || a === b;
  return agree(left.output, right.output) && agree(left.high, right.high);
}

function together(left: OutputCase, right: OutputCase, port: string): KeyedWaveform[] {
  const a = left.output;
  const b = right.output;
  if (!a.connected) {
    return [b];
  }
  if (!b.connected) {
    return [a];
  }
  const key = `${a.key}&${b.key}`;
  if (a.waveform.kind === "not driven" || b.waveform.kind === "not driven") {
    return [{ key: "pin", waveform: a.waveform.kind === "not driven" ? a.waveform : b.waveform }];
  }
  const high = left.alternative.high ?? right.alternative.high;
  const joins = high === null ? (["and", "or"] as const) : high ? (["or"] as const) : (["and"] as const);
  return joins.map((join) => ({ key, waveform: modulated(a.waveform, b.waveform, join, port) }));
}

/** The logical AND or OR of two waveforms, as far as it can be told without their phase. */
function modulated(a: Waveform, b: Waveform, join: "and" | "or", port: string): Waveform {
  const deciding = join === "and" ? "low" : "high";
  const passing = join === "and" ? "high" : "low";
  const isLevel = (waveform: Waveform, level: "low" | "high") => waveform.kind === "level" && waveform.level === level;
  const because = `${port} is the ${join.toUpperCase()} of both compare units (modulator)`;
  for (const [one, other] of [
    [a, b],
    [b, a],
  ] as const) {
    if (isLevel(one, deciding)) {
      return { ...one, because };
    }
    if (isLevel(one, passing)) {
      return { ...other, because: other.because === null ? because : `${other.because}; ${because}` };
    }
  }
  if (a.kind === "level" && b.kind === "level") {
    return { ...a, level: null, because };
  }
  return unknown(`${because}, and what two running units give together depends on their phase`);
}
