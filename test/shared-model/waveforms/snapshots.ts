/** Snapshots for waveform tests, from plain register values. */
import type { Chip, TimerFact } from "../../../shared-model/chip.js";
import { findChip } from "../../../shared-model/chips/chips.js";
import { exactly, type RegisterValue } from "../../../shared-model/register-value.js";
import type { ChannelAlternative, TimerSnapshot } from "../../../shared-model/timer-snapshot.js";

export function chipAndTimer(id: string, number: number): { chip: Chip; timer: TimerFact } {
  const chip = findChip(id)!;
  return { chip, timer: chip.timers.find((timer) => timer.number === number)! };
}

export interface Setting {
  readonly mode: number;
  readonly clock: number;
  /** COM bits by channel letter. */
  readonly com?: Readonly<Record<string, number>>;
  /** Compare values by channel letter and ICR. */
  readonly values?: Readonly<Record<string, number>>;
}

/** Control registers of a setting, by the block's own fields. */
export function controlRegisters(timer: TimerFact, setting: Setting): Record<string, number> {
  const registers: Record<string, number> = Object.fromEntries(timer.control.map((name) => [name, 0]));
  for (const [field, value] of [
    [timer.modeField, setting.mode],
    [timer.clockField, setting.clock],
  ] as const) {
    for (const part of field.parts) {
      registers[part.register] =
        registers[part.register]! | (((value >> part.at) & (2 ** part.width - 1)) << part.shift);
    }
  }
  for (const channel of timer.channels) {
    registers[channel.com.register] =
      registers[channel.com.register]! | ((setting.com?.[channel.letter] ?? 0) << channel.com.shift);
  }
  return registers;
}

/** Everything known: all pins are outputs with PORT bit 0, the timer is powered and synchronous. */
export function snapshotOf(timer: TimerFact, setting: Setting, change: Partial<TimerSnapshot> = {}): TimerSnapshot {
  const values = setting.values ?? {};
  const wide: Record<string, RegisterValue> = {};
  for (const channel of timer.channels) {
    wide[channel.compare] = exactly(values[channel.letter] ?? 0, timer.bits);
  }
  if (timer.capture !== undefined) {
    wide[timer.capture] = exactly(values["ICR"] ?? 0, 16);
  }
  const control = Object.entries(controlRegisters(timer, setting)).map(([name, value]) => [name, exactly(value, 8)]);
  return {
    timer: timer.number,
    registers: { ...Object.fromEntries(control), ...wide },
    working: wide,
    channels: timer.channels.map((channel) => ({
      unit: channel.unit,
      alternatives: [
        {
          com: exactly(setting.com?.[channel.letter] ?? 0, 2),
          compare: wide[channel.compare]!,
          output: true,
          high: false,
        } satisfies ChannelAlternative,
      ],
    })),
    powered: true,
    held: false,
    asynchronous: false,
    clockDivisor: 1,
    ...change,
  };
}
