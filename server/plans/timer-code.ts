/**
 * A timer's setting as register code that a person would write, in an order that never lets out a pulse longer than
 * commanded, whatever the registers held before. Pure: chip, setting and style in, lines out.
 *
 * The order, and why (DS40002061, sections named):
 * 1. Clock off. Nothing moves any more, so nothing that follows can be seen half done. A pulse that is under way is held for
 *    the few instructions until step 2 ends it: by so much it can be longer than the old setting commanded, if it was to end there.
 * 2. Normal mode, own outputs disconnected. There a compare register takes its value at once (15.5, 16.7: buffers are for
 *    the PWM modes), and real parts mask a 16-bit compare value only while a fixed-TOP PWM mode is on (no published source).
 *    An output that may be high already is pulled low by force compare, which works in this mode alone (15.5.1).
 * 3. Counter 0 (16.3: whole 16-bit registers, so that the compiler keeps the order of the halves), compare values.
 * 4. On a 16-bit timer the mode bits of TCCRnB before those of TCCRnA: the way leads through CTC, never through a mode with
 *    fixed TOP. ICRn once the mode takes TOP from it (16.9.3: it can be written only then).
 * 5. Mode and outputs, then the clock. From BOTTOM with the output low, the first pulse is whole or missing.
 * 6. The pin's direction last: the output's state is settled by then (15.7: set up OCnx before the direction).
 */
import type { ChannelFact, Chip, FieldFact, TimerFact } from "../../shared-model/chip.js";
import type { TimerSetting } from "../../shared-model/plans/plan.js";
import { bitsUnder, type NamingStyle } from "../look/naming.js";

/** What becomes of one compare unit of the timer. */
export interface UnitCode {
  /** `OC2B` */
  readonly unit: string;
  /** The COM field: 0 disconnects (analogWrite will connect it); null leaves the field as it is. */
  readonly com: 0 | 1 | 2 | 3 | null;
  /** Written to its compare register; null leaves the register alone. */
  readonly value: number | null;
  /** True where its output may be high already: it was connected before. */
  readonly mayBeHigh: boolean;
}

export interface TimerCodeRequest {
  readonly chip: Chip;
  readonly setting: Pick<TimerSetting, "timer" | "mode" | "clock" | "top" | "topRegister">;
  /** Units not named are disconnected: the timer is the plan's alone. */
  readonly units: readonly UnitCode[];
  /** True where the sketch uses the timer's input capture: its noise and edge bits are kept. */
  readonly keepsCapture: boolean;
  /** A free name for the saved interrupt flag, where interrupt routines use the 16-bit access; null where none does. */
  readonly guard: string | null;
  readonly style: NamingStyle;
  /** What it gives, told where the clock is started; null for no remark. */
  readonly remark: string | null;
}

/** The statements, one a line, without indentation and without those that set the pins' direction. */
export function timerCode(request: TimerCodeRequest): readonly string[] {
  const timer = request.chip.timers.find((candidate) => candidate.number === request.setting.timer);
  if (timer === undefined) throw new RangeError(`${request.chip.id} has no timer ${request.setting.timer}`);
  const lines = timerLines(request, timer);
  if (request.remark !== null) lines[lines.length - 1] += `  // ${request.remark}`;
  if (request.guard === null) return lines;
  const disable = request.style.functions ? "noInterrupts();" : "cli();";
  return [`uint8_t ${request.guard} = SREG;`, disable, ...lines, `SREG = ${request.guard};`];
}

function timerLines(request: TimerCodeRequest, timer: TimerFact): string[] {
  const { setting, style } = request;
  const write = new RegisterCode(request.chip, style);
  const [controlA, controlB] = timer.control as readonly [string, string, ...string[]];
  const units = timer.channels.map((channel) => ({ channel, code: codeOf(request, channel) }));
  const keptA = units.reduce((mask, { channel, code }) => (code.com === null ? mask | comBits(channel, 3) : mask), 0);
  const keptB = request.keepsCapture && timer.capture !== undefined ? captureBits(request.chip, controlB) : 0;
  const lines: string[] = [write.keepOnly(controlB, keptB)];
  // Inverted outputs too are pulled low by "clear on match": they begin low, and rise where their compare value says.
  const low = units.filter(({ code }) => code.mayBeHigh);
  const clearing = low.reduce((bits, { channel, code }) => (code.com === null ? bits : bits | comBits(channel, 2)), 0);
  lines.push(clearing === 0 ? write.keepOnly(controlA, keptA) : write.replace(controlA, keptA, clearing));
  if (low.length > 0)
    lines.push(
      forceLow(
        write,
        timer,
        low.map(({ channel }) => channel),
        keptB,
      ),
    );
  lines.push(`${timer.counter} = 0;`);
  for (const { channel, code } of units) {
    const value = channel.compare === setting.topRegister ? setting.top : code.value;
    if (value !== null) lines.push(`${channel.compare} = ${value};`);
  }
  const modeB = fieldBits(timer.modeField, setting.mode, controlB);
  const early = timer.bits === 16 && modeB !== 0;
  if (early) lines.push(write.add(controlB, keptB, modeB));
  if (timer.capture !== undefined && setting.topRegister === timer.capture)
    lines.push(`${timer.capture} = ${setting.top};`);
  const outputs = units.reduce((bits, { channel, code }) => bits | comBits(channel, code.com ?? 0), 0);
  const modeA = fieldBits(timer.modeField, setting.mode, controlA) | outputs;
  if (clearing !== 0) lines.push(write.replace(controlA, keptA, modeA));
  else if (modeA !== 0) lines.push(write.add(controlA, keptA, modeA));
  const clock = fieldBits(timer.clockField, setting.clock, controlB);
  if (early) lines.push(write.add(controlB, keptB | modeB, clock));
  else lines.push(write.add(controlB, keptB, modeB | clock));
  return lines;
}

function codeOf(request: TimerCodeRequest, channel: ChannelFact): UnitCode {
  const named = request.units.find((unit) => unit.unit === channel.unit);
  return named ?? { unit: channel.unit, com: 0, value: null, mayBeHigh: false };
}

/** Force compare: of an 8-bit timer in TCCRnB, of a 16-bit one in TCCRnC. Bits named FOCnx. */
function forceLow(write: RegisterCode, timer: TimerFact, channels: readonly ChannelFact[], keptB: number): string {
  const register = timer.control[2] ?? timer.control[1]!;
  const bits = channels.reduce((mask, channel) => mask | write.bitNamed(register, `FOC${channel.unit.slice(2)}`), 0);
  return timer.control[2] === undefined ? write.add(register, keptB, bits) : write.set(register, bits);
}

function comBits(channel: ChannelFact, com: number): number {
  return com << channel.com.shift;
}

/** ICNCn and ICESn. */
function captureBits(chip: Chip, controlB: string): number {
  const row = chip.registers.find((candidate) => candidate.name === controlB);
  return (row?.bits ?? []).reduce(
    (mask, bit) => (/^IC(?:NC|ES)/.test(bit.name) ? mask | (1 << bit.position) : mask),
    0,
  );
}

/** The bits of one register that give a field this value. */
function fieldBits(field: FieldFact, value: number, register: string): number {
  return field.parts.reduce(
    (bits, part) =>
      part.register === register ? bits | (((value >> part.at) & ((1 << part.width) - 1)) << part.shift) : bits,
    0,
  );
}

/** Statements that write one register, in the sketch's style. `kept` is what the register may hold of others' bits. */
class RegisterCode {
  readonly #chip: Chip;
  readonly #style: NamingStyle;

  constructor(chip: Chip, style: NamingStyle) {
    this.#chip = chip;
    this.#style = style;
  }

  bitNamed(register: string, name: string): number {
    const row = this.#chip.registers.find((candidate) => candidate.name === register);
    const bit = row?.bits.find((candidate) => candidate.name === name);
    if (bit === undefined) throw new RangeError(`${register} has no bit ${name}`);
    return 1 << bit.position;
  }

  /** Everything but the kept bits becomes 0. */
  keepOnly(register: string, kept: number): string {
    return kept === 0 ? `${register} = 0;` : `${register} &= ~${inBrackets(this.#others(register, kept))};`;
  }

  set(register: string, bits: number): string {
    return bits === 0 ? `${register} = 0;` : `${register} = ${this.#names(register, bits)};`;
  }

  /** The bits on top of what is there, which is nothing but kept bits. */
  add(register: string, kept: number, bits: number): string {
    if (kept === 0) return this.set(register, bits);
    const names = bitsUnder(this.#chip, register, bits);
    if (this.#style.functions && names.length === 1) return `bitSet(${register}, ${names[0]});`;
    return `${register} |= ${this.#names(register, bits)};`;
  }

  /** Only the kept bits stay; the others become these. */
  replace(register: string, kept: number, bits: number): string {
    if (kept === 0) return this.set(register, bits);
    if (bits === 0) return this.keepOnly(register, kept);
    const mask = inBrackets(this.#others(register, kept));
    return `${register} = (${register} & ~${mask}) | ${this.#names(register, bits)};`;
  }

  /** All that can be written beside the kept bits, by name. */
  #others(register: string, kept: number): string {
    const writable = this.#chip.registers.find((row) => row.name === register)?.writable ?? 0xff;
    return this.#names(register, writable & ~kept);
  }

  #names(register: string, bits: number): string {
    return bitsUnder(this.#chip, register, bits).map(this.#style.bit).join(" | ");
  }
}

function inBrackets(names: string): string {
  return names.includes("|") ? `(${names})` : names;
}
