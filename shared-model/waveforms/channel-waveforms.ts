/**
 * What one compare unit's pin puts out, from one snapshot of its timer: the public function of this folder beside
 * `pinWaveforms`. Everything that the registers allow is in the answer; where they allow one thing, the answer is exact.
 */
import type { ChannelFact, Chip, ModeFact, TimerFact } from "../chip.js";
import { fraction } from "../fraction.js";
import { exactly } from "../register-value.js";
import type { Waveform } from "../signal.js";
import type { ChannelAlternative, TimerSnapshot } from "../timer-snapshot.js";
import { type Clocking, clockings } from "./clockings.js";
import { type CompareCase, outputAction, type Shape, shapesOf } from "./compare-shapes.js";
import { controlStates, modeName, mostControlStates, topName } from "./control-states.js";
import { levelText } from "./level-text.js";
import { type KeyedWaveform, mergeKeyed } from "./merge.js";
import { anyValue, hull, maskedMembers, stretches } from "./register-members.js";

/**
 * One entry per distinct timer state (mode × prescaler) and kind. A pulse carries bounds where compare value or TOP are
 * not known exactly; several entries mean that any of them may be the case. `steps` is 1 for toggling outputs: the
 * compare register moves the phase, never the duty.
 */
export function channelWaveforms(
  chip: Chip,
  timer: TimerFact,
  snapshot: TimerSnapshot,
  channel: ChannelFact,
  clockHz: number,
): Waveform[] {
  const alternatives = snapshot.channels.find((candidate) => candidate.unit === channel.unit)?.alternatives ?? [
    unknownAlternative(timer),
  ];
  const all = alternatives.flatMap((alternative) =>
    maskedMembers(alternative.com, 3).flatMap((com) =>
      singleOutput(chip, timer, snapshot, channel, clockHz, { ...alternative, com: exactly(com, 2) }),
    ),
  );
  return mergeKeyed(all);
}

/** A waveform, the timer state it belongs to, and whether the compare unit drives it (false: the port, or nothing). */
export interface Output extends KeyedWaveform {
  readonly connected: boolean;
}

function unknownAlternative(timer: TimerFact): ChannelAlternative {
  return { com: anyValue(2), compare: anyValue(timer.bits), output: null, high: null };
}

/** All outputs of one alternative whose COM bits are known. */
export function singleOutput(
  chip: Chip,
  timer: TimerFact,
  snapshot: TimerSnapshot,
  channel: ChannelFact,
  clockHz: number,
  alternative: ChannelAlternative,
): Output[] {
  const com = alternative.com.min;
  if (alternative.output !== true) {
    return [{ key: "pin", waveform: notDriven(channel, alternative, com), connected: com !== 0 }];
  }
  if (com === 0) {
    return [{ key: "pin", waveform: portLevel(alternative), connected: false }];
  }
  const states = controlStates(timer, snapshot);
  const most = Math.max(1, Math.floor(MOST_CASES / (states?.length ?? 1)));
  if (states === null) {
    const because = `the control registers of timer ${timer.number} allow more than ${mostControlStates} settings`;
    return [{ key: "pin", waveform: unknown(because), connected: true }];
  }
  return states.flatMap(({ mode, clock }) => {
    const action = outputAction(mode, com, channel.letter, timer.bits);
    if (action === "disconnected") {
      return [{ key: "pin", waveform: portLevel(alternative), connected: false }];
    }
    return clockings(chip, timer, snapshot, clock).flatMap((clocking): Output[] => {
      if (clocking.kind === "stopped") {
        return [{ key: "stopped", waveform: timerLevel(null, clocking.because), connected: true }];
      }
      return compareCases(timer, snapshot, mode, channel, alternative, most)
        .flatMap((range) => shapesOf(mode, action, range))
        .map((shape) => ({
          key: `${mode.select}/${clocking.kind === "runs" ? clocking.by : "?"}/${action === "toggle"}`,
          waveform: waveformOf({ timer, mode, channel, clocking, clockHz, snapshot, com }, shape, alternative),
          connected: true,
        }));
    });
  });
}

/** Pairs of TOP and compare value looked at one by one, over all modes and clocks; beyond it they are taken together. */
const MOST_CASES = 512;

/** TOP and compare value in stretches, as far as they are known; a register that is both is one stretch. */
function compareCases(
  timer: TimerFact,
  snapshot: TimerSnapshot,
  mode: ModeFact,
  channel: ChannelFact,
  alternative: ChannelAlternative,
  most: number,
): CompareCase[] {
  const limit = 2 ** timer.bits - 1;
  const tops = topStretches(timer, snapshot, mode);
  if (mode.top.kind === "compareA" && channel.letter === "A") {
    return tops.map((top) => ({ top, compare: "own" as const }));
  }
  const compares = stretches(alternative.compare, limit);
  if (tops.length * compares.length > most) {
    return [{ top: hull(tops), compare: hull(compares) }];
  }
  return tops.flatMap((top) => compares.map((compare) => ({ top, compare })));
}

/** Where TOP may lie in a mode. */
export function topStretches(
  timer: TimerFact,
  snapshot: TimerSnapshot,
  mode: ModeFact,
): { min: number; max: number }[] {
  if (mode.top.kind === "fixed") {
    return [{ min: mode.top.value, max: mode.top.value }];
  }
  const register = topName(timer, mode);
  const value = snapshot.working[register] ?? snapshot.registers[register] ?? anyValue(timer.bits);
  return stretches(value, 2 ** timer.bits - 1);
}

interface Setting {
  readonly timer: TimerFact;
  readonly mode: ModeFact;
  readonly channel: ChannelFact;
  readonly clocking: Exclude<Clocking, { kind: "stopped" }>;
  readonly clockHz: number;
  readonly snapshot: TimerSnapshot;
  readonly com: number;
}

function waveformOf(setting: Setting, shape: Shape, alternative: ChannelAlternative): Waveform {
  const { timer, mode, channel, clocking } = setting;
  switch (shape.kind) {
    case "disconnected":
      return portLevel(alternative);
    case "unknown":
      return unknown(
        shape.reason === "reserved mode"
          ? `timer ${timer.number} is in a mode that is ${modeName(timer, mode)}`
          : shape.reason === "reserved output mode"
            ? `${channel.com.name} = ${setting.com} is reserved in ${modeName(timer, mode)}`
            : `TOP (${topName(timer, mode)}) is 0: the counter does not move`,
      );
    case "level": {
      const because = levelText(shape, { timer, mode, channel, com: setting.com });
      if (clocking.kind === "rate unknown") {
        return timerLevel(null, `${because}, once it is clocked: ${clocking.because}`);
      }
      const pwm = mode.family !== "normal" && mode.family !== "ctc";
      const tops = hull(topStretches(timer, setting.snapshot, mode));
      return {
        ...timerLevel(shape.level, because),
        steps: pwm && shape.reason !== "top is zero" ? stepsOf(setting, tops, false) : null,
        top: tops,
        prescaler: clocking.by,
      };
    }
    case "pulse": {
      if (clocking.kind === "rate unknown") {
        return unknown(clocking.because);
      }
      const divisor = setting.snapshot.clockDivisor ?? 1;
      const scale = (bounds: { min: number; max: number }) => ({
        min: bounds.min * clocking.by,
        max: bounds.max * clocking.by,
      });
      const period = scale(shape.period);
      const narrow = timer.bits === 16 && !shape.toggles && shape.top.min < 3 && mode.family !== "ctc";
      return {
        kind: "pulse",
        level: null,
        driver: "timer",
        frequencyHz: {
          min: fraction(setting.clockHz, divisor * period.max),
          max: fraction(setting.clockHz, divisor * period.min),
        },
        duty: shape.duty,
        highTicks: scale(shape.high),
        periodTicks: period,
        steps: stepsOf(setting, shape.top, shape.toggles),
        top: shape.top,
        prescaler: clocking.by,
        because: narrow ? "TOP below 3 is less than the 2 bits that the data sheet allows" : null,
      };
    }
  }
}

/**
 * How many duties the compare register can give at this TOP: TOP + 1 in every PWM mode (single slope: 1 … TOP + 1 of
 * TOP + 1 counts; dual slope: 0 … TOP of TOP). One where the output toggles or the register is TOP itself.
 */
function stepsOf(setting: Setting, top: { min: number; max: number }, toggles: boolean): number | null {
  if (toggles || (setting.mode.top.kind === "compareA" && setting.channel.letter === "A")) {
    return 1;
  }
  return top.min === top.max ? top.min + 1 : null;
}

const blank = {
  frequencyHz: null,
  duty: null,
  highTicks: null,
  periodTicks: null,
  steps: null,
  top: null,
  prescaler: null,
} as const;

export function unknown(because: string): Waveform {
  return { ...blank, kind: "unknown", level: null, driver: null, because };
}

function timerLevel(level: "low" | "high" | null, because: string | null): Waveform {
  return { ...blank, kind: "level", level, driver: "timer", because };
}

export function portLevel(alternative: ChannelAlternative): Waveform {
  const level = alternative.high === null ? null : alternative.high ? "high" : "low";
  return {
    ...blank,
    kind: "level",
    level,
    driver: "port",
    because: level === null ? "the PORT bit is not known" : null,
  };
}

function notDriven(channel: ChannelFact, alternative: ChannelAlternative, com: number): Waveform {
  if (alternative.output === null) {
    return unknown(`it is not known whether ${channel.port} is an output`);
  }
  const because =
    com !== 0
      ? `${channel.unit} is attached (${channel.com.name} = ${com}), but the pin is an input`
      : alternative.high === true
        ? "the pin is an input with its pull-up on"
        : "the pin is an input";
  return { ...blank, kind: "not driven", level: null, driver: null, because };
}
