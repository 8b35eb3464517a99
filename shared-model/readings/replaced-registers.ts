/**
 * A timer's state with some registers replaced by given values: what a reading was taken of that says `with OCR2A = 0xFE`, and what
 * a slip would have made of the state. The timer is taken as settled: buffered values have reached their units.
 */
import type { ChannelFact, Chip, TimerFact } from "../chip.js";
import { exactly, type RegisterValue, single } from "../register-value.js";
import type { ChannelAlternative, ChannelSnapshot, TimerSnapshot } from "../timer-snapshot.js";
import { controlStates } from "../waveforms/control-states.js";
import { anyValue, maskedMembers } from "../waveforms/register-members.js";

export interface Replacement {
  readonly name: string;
  readonly value: number;
  /** Only these bits are replaced; absent: all of them. */
  readonly mask?: number;
}

export type Replaced = { readonly snapshot: TimerSnapshot } | { readonly problem: string };

/** The state with the replacements, in order; or one clause that says why one of them cannot be worked out. */
export function replaceRegisters(
  chip: Chip,
  timer: TimerFact,
  snapshot: TimerSnapshot,
  replacements: readonly Replacement[],
): Replaced {
  let state = snapshot;
  for (const { name, value, mask } of replacements) {
    const next = replaceOne(chip, timer, state, name.toUpperCase(), value, mask ?? null);
    if ("problem" in next) return next;
    state = next.snapshot;
  }
  const moved = replacements.some(({ name }) => timer.control.includes(name.toUpperCase()));
  return { snapshot: moved ? cutByFixedTop(timer, state) : state };
}

/**
 * A 16-bit compare value written while a mode with fixed TOP is on keeps only the bits of that TOP: in such a mode the unit holds
 * the value whole or cut, as the mode came after or before it.
 */
function cutByFixedTop(timer: TimerFact, state: TimerSnapshot): TimerSnapshot {
  if (timer.bits < 16) return state;
  const tops = (controlStates(timer, state) ?? []).map(({ mode: { top } }) =>
    top.kind === "fixed" ? top.value : 0xffff,
  );
  const top = Math.min(...tops);
  if (tops.length === 0 || top === 0xffff) return state;
  return {
    ...state,
    channels: state.channels.map((channel) => ({
      ...channel,
      alternatives: channel.alternatives.flatMap((each) => {
        const value = single(each.compare);
        return value === undefined || value <= top ? [each] : [each, { ...each, compare: exactly(value & top, 16) }];
      }),
    })),
  };
}

function replaceOne(
  chip: Chip,
  timer: TimerFact,
  state: TimerSnapshot,
  name: string,
  value: number,
  mask: number | null,
): Replaced {
  const half = chip.wide.find((pair) => pair.low.toUpperCase() === name || pair.high.toUpperCase() === name);
  const wide = chip.wide.find((pair) => pair.name === name);
  const fact = chip.registers.find((register) => register.name.toUpperCase() === name);
  if (half === undefined && wide === undefined && fact === undefined)
    return { problem: `${name} is no register of the ${chip.id}` };
  const bits = wide === undefined ? 8 : 16;
  if (value > 2 ** bits - 1) return { problem: `${value} does not fit the ${bits} bits of ${name}` };
  if (half !== undefined) {
    const present = state.registers[half.name];
    const whole = present === undefined ? undefined : single(present);
    if (present === undefined) return elsewhere(chip, timer, half.name, name);
    if (whole === undefined) return { problem: `the other half of ${half.name} is not known` };
    const joined = half.low.toUpperCase() === name ? (whole & 0xff00) | value : (whole & 0x00ff) | (value * 256);
    return replaceOne(chip, timer, state, half.name, joined, null);
  }
  if (timer.control.includes(name))
    return { snapshot: controlRegister(timer, state, name, value & (fact?.writable ?? 0xff), mask) };
  if (timer.capture === name || timer.channels.some(({ compare }) => compare === name))
    return { snapshot: countRegister(timer, state, name, exactly(value, bits)) };
  return surroundings(chip, timer, state, name, value);
}

/** TOP and compare values. */
function countRegister(timer: TimerFact, state: TimerSnapshot, name: string, is: RegisterValue): TimerSnapshot {
  return {
    ...state,
    registers: { ...state.registers, [name]: is },
    working: name in state.working ? { ...state.working, [name]: is } : state.working,
    channels: eachChannel(timer, state, (fact, each) => (fact.compare === name ? { ...each, compare: is } : each)),
  };
}

function controlRegister(
  timer: TimerFact,
  state: TimerSnapshot,
  name: string,
  value: number,
  mask: number | null,
): TimerSnapshot {
  const before = maskedMembers(state.registers[name] ?? anyValue(8), 0xff);
  const after = mask === null ? [value] : before.map((member) => (member & ~mask) | (value & mask));
  const channels = eachChannel(timer, state, (fact, each) => {
    if (fact.com.register !== name) return each;
    const bits = (value >> fact.com.shift) & 3;
    const kept = mask === null ? 0 : ~(mask >> fact.com.shift) & 3;
    // analogWrite connects its unit after the sketch has written the register: a value that leaves the output bits 0 leaves them to it.
    if (mask === null && bits === 0 && each.com.max > 0) return each;
    return {
      ...each,
      com: among(
        maskedMembers(each.com, 3).map((com) => (com & kept) | (bits & ~kept)),
        2,
      ),
    };
  });
  return { ...state, registers: { ...state.registers, [name]: among(after, 8) }, channels };
}

function eachChannel(
  timer: TimerFact,
  state: TimerSnapshot,
  change: (fact: ChannelFact, alternative: ChannelAlternative) => ChannelAlternative,
): readonly ChannelSnapshot[] {
  return state.channels.map((channel) => {
    const fact = timer.channels.find(({ unit }) => unit === channel.unit);
    return fact === undefined
      ? channel
      : { ...channel, alternatives: channel.alternatives.map((alternative) => change(fact, alternative)) };
  });
}

/** Exactly these values. */
function among(values: readonly number[], bits: number): RegisterValue {
  const sorted = [...new Set(values)].sort((a, b) => a - b);
  const all = 2 ** bits - 1;
  return {
    min: sorted[0]!,
    max: sorted.at(-1)!,
    zeros: sorted.reduce((mask, value) => mask & ~value, all),
    ones: sorted.reduce((mask, value) => mask & value, all),
    values: sorted,
  };
}

/** Ports, power and the CPU's clock: what else decides what the pin does. */
function surroundings(chip: Chip, timer: TimerFact, state: TimerSnapshot, name: string, value: number): Replaced {
  const port = chip.ports.find(({ direction, output }) => direction === name || output === name);
  if (port !== undefined) {
    const isDirection = port.direction === name;
    const channels = eachChannel(timer, state, (fact, each) => {
      if (fact.port[1] !== port.letter) return each;
      const bit = ((value >> Number(fact.port[2])) & 1) === 1;
      return isDirection ? { ...each, output: bit } : { ...each, high: bit };
    });
    return { snapshot: { ...state, channels } };
  }
  if (timer.powerReduction.register === name) {
    const bit = bitOf(chip, name, timer.powerReduction.bit);
    return { snapshot: { ...state, powered: ((value >> bit) & 1) === 0 } };
  }
  if (name === "CLKPR") {
    // DS40002061 table 9-17: CLKPS 0..8 divide by 2 to that power.
    const shift = value & 0x0f;
    return shift > 8
      ? { problem: `CLKPR = ${value} is reserved` }
      : { snapshot: { ...state, clockDivisor: 2 ** shift } };
  }
  return elsewhere(chip, timer, name, name);
}

/** A register of another timer, or of none; `said` is how it was named. */
function elsewhere(chip: Chip, timer: TimerFact, name: string, said: string): Replaced {
  const other = chip.timers.some(
    ({ control, capture, counter, channels }) =>
      control.includes(name) ||
      capture === name ||
      (counter === name && timer.counter !== name) ||
      channels.some(({ compare }) => compare === name),
  );
  return {
    problem: other
      ? `${said} does not belong to timer ${timer.number}, which makes this pin's pulses`
      : `${said} does not decide what the pin puts out`,
  };
}

function bitOf(chip: Chip, register: string, name: string): number {
  const fact = chip.registers.find((candidate) => candidate.name === register);
  return fact?.bits.find((bit) => bit.name === name)?.position ?? 0;
}

/** The registers in which one state differs from another. */
export function differing(before: TimerSnapshot, after: TimerSnapshot): Readonly<Record<string, RegisterValue>> {
  return Object.fromEntries(
    Object.entries(after.registers).filter(([name, value]) => {
      const was = before.registers[name];
      return was === undefined || JSON.stringify(membersOf(was)) !== JSON.stringify(membersOf(value));
    }),
  );
}

function membersOf({ min, max, values }: RegisterValue): readonly number[] {
  return values ?? [min, max];
}
