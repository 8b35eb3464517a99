/** pinMode, digitalWrite, digitalRead, analogRead, analogWrite, analogReference, shiftOut/In. Source: wiring_digital.c, wiring_analog.c, wiring_shift.c of the packaged core. */
import type { BoardPin } from "../../../shared-model/chip.js";
import { dependent } from "../domain/dependence.js";
import * as number from "../domain/number.js";
import { readByte } from "../hardware/access.js";
import { bitOf } from "../hardware/alternatives.js";
import type { ChannelSlot } from "../hardware/layout.js";
import { BYTE, WORD } from "../hardware/machine.js";
import { readingOf } from "../inputs.js";
import { conversionSpell } from "../pulses/waits.js";
import { coreContext, writeRegister } from "../register-writes.js";
import type { Run } from "../run.js";
import { snapshotOf } from "../snapshot.js";
import { absorbHardware, type State } from "../state.js";
import { passTime } from "../time-passing.js";
import type { Value } from "../value.js";
import type { CoreCall, Model } from "./core.js";

const INT: number.IntegerType = { bits: 16, signed: true };

/** Where a board pin is in the register file. */
export interface PinPlace {
  readonly pin: BoardPin;
  readonly direction: number;
  readonly output: number;
  readonly bit: number;
  /** The unit that the core connects for analogWrite and disconnects for digitalWrite. */
  readonly channel: ChannelSlot | null;
}

const places = new WeakMap<readonly BoardPin[], Map<number, PinPlace>>();

export function pinPlaces(run: Run): ReadonlyMap<number, PinPlace> {
  const { pins } = run.target;
  const known = places.get(pins);
  if (known !== undefined) return known;
  const made = new Map<number, PinPlace>();
  for (const pin of pins) {
    const port = run.chip.ports.find((candidate) => candidate.letter === pin.port[1]);
    if (port === undefined) continue;
    made.set(pin.number, {
      pin,
      direction: run.layout.address(port.direction),
      output: run.layout.address(port.output),
      bit: Number(pin.port[2]),
      channel: run.layout.channels.find((channel) => channel.fact.unit === pin.analogWriteUnit) ?? null,
    });
  }
  places.set(pins, made);
  return made;
}

/** The pins a call may mean; pins the board does not have are left alone, as the core leaves them. */
export function pinsMeant(call: CoreCall, index = 0): readonly PinPlace[] {
  return meantBy(call.run, call.values[index]);
}

export function meantBy(run: Run, value: Value | undefined): readonly PinPlace[] {
  const all = pinPlaces(run);
  if (value === undefined || !("zeros" in value)) return [...all.values()];
  const found: PinPlace[] = [];
  for (const place of all.values()) if (number.contains(value, place.pin.number)) found.push(place);
  return found;
}

/** Does something to the pin that a call means; where it may be one of several, to each on its own path. */
export function onEachPin(call: CoreCall, index: number, act: (state: State, pin: PinPlace) => void): void {
  const meant = pinsMeant(call, index);
  const { state } = call;
  const value = call.values[index];
  const certain = value !== undefined && "zeros" in value && number.isSingle(value);
  if (certain) {
    for (const pin of meant) act(state, pin);
    return;
  }
  const outcomes = meant.map((pin) => {
    const path = state.fork();
    act(path, pin);
    return path;
  });
  for (const outcome of outcomes) absorbHardware(state, outcome);
}

/** Sets, clears or loses one bit of a register; the others stay as they are, whatever they are. */
export function setBit(
  run: Run,
  state: State,
  address: number,
  bit: number,
  level: boolean | null,
  start: number,
  end: number,
): void {
  const mask = number.constant(1 << bit, BYTE);
  const inverse = number.constant(~(1 << bit) & 0xff, BYTE);
  const before = state.machine.raw(address);
  const cleared = number.and(before, inverse, BYTE);
  const set = number.or(before, mask, BYTE);
  const value = level === null ? number.join(cleared, set) : level ? set : cleared;
  writeRegister(run, state, address, false, value, { ...coreContext(start, end), preserves: ~(1 << bit) & 0xff });
}

function levelOf(value: Value | undefined): boolean | null {
  return value !== undefined && "zeros" in value ? number.truth(value) : null;
}

/** turnOffPWM: clears the upper COM bit alone. */
function disconnect(run: Run, state: State, pin: PinPlace, start: number, end: number): void {
  if (pin.channel !== null) setBit(run, state, pin.channel.comAddress, pin.channel.comShift + 1, false, start, end);
}

export function setMode(
  run: Run,
  state: State,
  pin: PinPlace,
  mode: Value | undefined,
  start: number,
  end: number,
): void {
  const input = mode !== undefined && "zeros" in mode ? number.equalTo(mode, number.constant(0, BYTE)) : null;
  const pullUp = mode !== undefined && "zeros" in mode ? number.equalTo(mode, number.constant(2, BYTE)) : null;
  if (input === true || pullUp === true) {
    setBit(run, state, pin.direction, pin.bit, false, start, end);
    setBit(run, state, pin.output, pin.bit, pullUp === true, start, end);
  } else if (input === false && pullUp === false) setBit(run, state, pin.direction, pin.bit, true, start, end);
  else {
    const paths: [boolean | null, boolean | null][] = [];
    if (input !== false) paths.push([false, false]);
    if (pullUp !== false) paths.push([false, true]);
    paths.push([true, null]);
    const outcomes = paths.map(([direction, level]) => {
      const path = state.fork();
      setBit(run, path, pin.direction, pin.bit, direction, start, end);
      if (direction === false) setBit(run, path, pin.output, pin.bit, level, start, end);
      return path;
    });
    mergeOutcomes(state, outcomes);
  }
}

/** The state becomes any of the outcomes: exactly one of them is real. */
export function mergeOutcomes(state: State, outcomes: readonly State[]): void {
  const [first, ...others] = outcomes;
  if (first === undefined) return;
  state.machine = first.machine.fork();
  state.stopwatch = first.stopwatch;
  for (const other of others) absorbHardware(state, other);
}

export function writeLevel(
  run: Run,
  state: State,
  pin: PinPlace,
  level: boolean | null,
  start: number,
  end: number,
): void {
  disconnect(run, state, pin, start, end);
  if (level !== null) {
    setBit(run, state, pin.output, pin.bit, level, start, end);
    return;
  }
  const outcomes = [false, true].map((each) => {
    const path = state.fork();
    setBit(run, path, pin.output, pin.bit, each, start, end);
    return path;
  });
  mergeOutcomes(state, outcomes);
}

function pinMode(call: CoreCall): null {
  const { run, expression } = call;
  note(call, () =>
    onEachPin(call, 0, (state, pin) => setMode(run, state, pin, call.values[1], expression.start, expression.end)),
  );
  return null;
}

function digitalWrite(call: CoreCall): null {
  const { run, expression } = call;
  const level = levelOf(call.values[1]);
  note(call, () =>
    onEachPin(call, 0, (state, pin) => writeLevel(run, state, pin, level, expression.start, expression.end)),
  );
  return null;
}

function digitalRead(call: CoreCall): Value {
  const { run, expression } = call;
  let result: number.AbstractInteger | null = null;
  onEachPin(call, 0, (state, pin) => {
    disconnect(run, state, pin, expression.start, expression.end);
    const port = readByte(state.machine, pin.direction - 1);
    const level = bitOf(port, pin.bit);
    const value = level === null ? number.range(0, 1, INT) : number.constant(level ? 1 : 0, INT);
    result = result === null ? value : number.join(result, value);
  });
  const asked = call.values[0];
  const certain = asked !== undefined && "zeros" in asked && number.isSingle(asked) && result !== null;
  if (!certain) return number.range(0, 1, INT);
  return number.isSingle(result!) ? result! : readingOf(run, call.state, 0, 2, INT);
}

/** Ten bits of whatever stands at the converter; about 104 µs pass. */
function analogRead(call: CoreCall): Value {
  const { run, state } = call;
  // 13 clocks of the converter, which the core sets to the CPU's clock / 128 at 16 MHz (section 24.4).
  const control = state.machine.raw(run.layout.address("ADCSRA"));
  const divided = (control.ones & 7) === 7 ? 128 : 2;
  passTime(
    run,
    state,
    call.expression.start,
    13 * divided,
    conversionSpell(state.machine, run.layout.address("ADCSRA")),
  );
  return readingOf(run, state, 0, 1024, INT);
}

/** Any value but 0 and 255 connects the unit and is stored as it is; 0 and 255 become port levels. */
function analogWrite(call: CoreCall): null {
  const { run, expression, values } = call;
  const asked = values[1] !== undefined && "zeros" in values[1] ? values[1] : number.top(INT);
  note(call, () =>
    onEachPin(call, 0, (state, pin) => {
      setBit(run, state, pin.direction, pin.bit, true, expression.start, expression.end);
      const outcomes: State[] = [];
      run.byDuty = pin.channel !== null;
      if (number.contains(asked, 0))
        outcomes.push(path(state, (each) => writeLevel(run, each, pin, false, expression.start, expression.end)));
      if (number.contains(asked, 255))
        outcomes.push(path(state, (each) => writeLevel(run, each, pin, true, expression.start, expression.end)));
      run.byDuty = false;
      const rest = between(asked);
      if (rest !== null) outcomes.push(path(state, (each) => connect(run, each, pin, rest, call)));
      mergeOutcomes(state, outcomes);
    }),
  );
  return null;
}

function path(state: State, act: (state: State) => void): State {
  const copy = state.fork();
  act(copy);
  return copy;
}

/** What is left of the value without 0 and 255; null where nothing is. */
function between(asked: number.AbstractInteger): number.AbstractInteger | null {
  const withoutZero = number.assumeNotEqual(asked, number.constant(0, INT), INT);
  const rest = withoutZero === null ? null : number.assumeNotEqual(withoutZero.left, number.constant(255, INT), INT);
  return rest === null ? null : dependent(rest.left, asked.by);
}

function connect(run: Run, state: State, pin: PinPlace, value: number.AbstractInteger, call: CoreCall): void {
  const { start, end } = call.expression;
  if (pin.channel === null) {
    const low = number.less(value, number.constant(128, INT));
    writeLevel(run, state, pin, low === null ? null : !low, start, end);
    return;
  }
  setBit(run, state, pin.channel.comAddress, pin.channel.comShift + 1, true, start, end);
  // Meant for another chip, but compiled wherever the bit has a name: timer 4's channel A loses its lower COM bit.
  if (pin.channel.fact.unit === "OC4A")
    setBit(run, state, pin.channel.comAddress, pin.channel.comShift, false, start, end);
  const wide = run.layout.timers[pin.channel.timer]!.wide;
  const stored = number.convert(value, INT, wide ? WORD : BYTE);
  writeRegister(run, state, pin.channel.compare, wide, stored, {
    ...coreContext(start, end),
    asked: { value, type: INT, by: value.by },
  });
}

/** Puts the call on record, with the timers' states before and after where it acts on a timer's pin. */
function note(call: CoreCall, act: () => void): void {
  const { run, state, expression } = call;
  const record = run.collector.call(run, call.name, expression.start, expression.end, expression.written, call.values);
  const meant = pinsMeant(call);
  for (const pin of meant) record.pins.add(pin.pin.number);
  const timers = new Set(meant.map((pin) => pin.channel?.timer).filter((timer) => timer !== undefined));
  const wants = record.effects.length < 4 && timers.size === 1;
  const timer = wants ? run.layout.timers[[...timers][0]!]! : null;
  for (const each of timers) record.timers.add(run.layout.timers[each]!.fact.number);
  const before = timer === null ? null : snapshotOf(state.machine, timer);
  act();
  if (timer !== null && before !== null)
    run.collector.effect(record, before, snapshotOf(state.machine, timer), state.conditions);
}

/** Both pins end up having been switched: the data pin to the last bit, the clock pin low. */
function shiftOut(call: CoreCall): null {
  const { run, expression } = call;
  const [, , order, value] = call.values;
  const known =
    order !== undefined && "zeros" in order && number.isSingle(order) && value !== undefined && "zeros" in value;
  const last = known ? bitOf(value, order.min === 0 ? 7 : 0) : null;
  onEachPin(call, 0, (state, pin) => {
    writeLevel(run, state, pin, last, expression.start, expression.end);
    run.timing?.losePin(run, state, pin.output, pin.bit);
  });
  onEachPin(call, 1, (state, pin) => {
    run.timing?.losePin(run, state, pin.output, pin.bit);
    writeLevel(run, state, pin, true, expression.start, expression.end);
    writeLevel(run, state, pin, false, expression.start, expression.end);
  });
  return null;
}

function shiftIn(call: CoreCall): Value {
  const { run, expression } = call;
  onEachPin(call, 1, (state, pin) => {
    run.timing?.losePin(run, state, pin.output, pin.bit);
    writeLevel(run, state, pin, true, expression.start, expression.end);
    writeLevel(run, state, pin, false, expression.start, expression.end);
  });
  return number.top(BYTE);
}

export const pinModels: Readonly<Record<string, Model>> = {
  pinMode,
  digitalWrite,
  digitalRead,
  analogRead,
  analogWrite,
  analogReference: () => null,
  shiftOut,
  shiftIn,
};
