/**
 * How long the core's functions take, from below and from above, where that does not depend on what they are given.
 * Source: the packaged core (arduino-core-avr 1.8.7) and avr-libc's floats compiled by avr-gcc 5.4 -Os and run in the
 * oracle's machine (digitalWrite 73..95 cycles, digitalRead 67..87, analogWrite 123..188, millis 29, micros 62, map 873,
 * random 1554, shiftOut 1846, tone 3377, sin 1707, pow 4740 …), rounded up; lower bounds leave room for inlining. Functions
 * that wait are in `waits.ts`.
 */
import { constantOf } from "../../program/constant.js";
import type { Expression } from "../../program/ir.js";

export interface Cost {
  readonly least: number;
  readonly most: number;
  /** Of it after the pin has been switched, at most. */
  readonly after: number;
  /** By how much one call may take longer than another with the same arguments. */
  readonly varies: number;
}

const cost = (least: number, most: number, after = most, varies = most): Cost => ({ least, most, after, varies });
const UNBOUNDED = cost(0, Number.POSITIVE_INFINITY);

const COSTS: Readonly<Record<string, Cost>> = {
  digitalWrite: cost(25, 125, 25, 10),
  digitalRead: cost(25, 125, 60, 10),
  pinMode: cost(25, 110, 110, 10),
  analogWrite: cost(25, 240, 25, 30),
  analogReference: cost(0, 20),
  shiftOut: cost(200, 3_000),
  shiftIn: cost(200, 3_500),
  tone: cost(0, 8_000),
  noTone: cost(0, 300),
  attachInterrupt: cost(0, 300),
  detachInterrupt: cost(0, 300),
  digitalPinToInterrupt: cost(0, 40),
  digitalPinToPort: cost(0, 20),
  digitalPinToBitMask: cost(0, 20),
  digitalPinToTimer: cost(0, 20),
  portOutputRegister: cost(0, 20),
  portInputRegister: cost(0, 20),
  portModeRegister: cost(0, 20),
  millis: cost(0, 40),
  micros: cost(0, 80),
  map: cost(0, 1_100),
  random: cost(0, 2_500),
  randomSeed: cost(0, 60),
  rand: cost(0, 2_000),
  srand: cost(0, 60),
  makeWord: cost(0, 30),
  sei: cost(1, 4),
  cli: cost(1, 4),
  interrupts: cost(1, 4),
  noInterrupts: cost(1, 4),
  __builtin_avr_sei: cost(1, 4),
  __builtin_avr_cli: cost(1, 4),
  __builtin_avr_nop: cost(1, 1),
  __pulsewright_atomic_begin: cost(1, 6),
  __pulsewright_atomic_end: cost(1, 6),
  pgm_read_byte: cost(0, 12),
  pgm_read_byte_near: cost(0, 12),
  pgm_read_word: cost(0, 16),
  pgm_read_word_near: cost(0, 16),
  pgm_read_dword: cost(0, 24),
  pgm_read_dword_near: cost(0, 24),
  pgm_read_float: cost(0, 24),
  pgm_read_float_near: cost(0, 24),
  pgm_read_ptr: cost(0, 16),
  pgm_read_ptr_near: cost(0, 16),
  abs: cost(0, 20),
  labs: cost(0, 30),
  fabs: cost(0, 20),
  sqrt: cost(0, 700),
  pow: cost(0, 8_000),
  exp: cost(0, 4_500),
  log: cost(0, 4_000),
  log10: cost(0, 4_500),
  sin: cost(0, 3_500),
  cos: cost(0, 3_500),
  tan: cost(0, 4_500),
  floor: cost(0, 400),
  ceil: cost(0, 400),
  round: cost(0, 400),
  lround: cost(0, 400),
  trunc: cost(0, 400),
  isnan: cost(0, 40),
  isinf: cost(0, 40),
  wdt_reset: cost(1, 4),
  wdt_enable: cost(1, 60),
  wdt_disable: cost(1, 60),
  set_sleep_mode: cost(0, 20),
  sleep_enable: cost(0, 10),
  sleep_disable: cost(0, 10),
  sleep_bod_disable: cost(0, 20),
  clock_prescale_set: cost(0, 60),
  yield: cost(0, 20),
  eeprom_is_ready: cost(0, 20),
  eeprom_read_byte: cost(0, 60_000),
  isDigit: cost(0, 40),
  isdigit: cost(0, 40),
  toupper: cost(0, 40),
  tolower: cost(0, 40),
};

/** `Servo.write` and its like: a few multiplications and divisions of 32 bits. */
const SERVO = cost(0, 6_000);

/** What the call takes; waits whose length is a constant are known, other waits are not. */
export function coreCost(expression: Extract<Expression, { op: "core" }>): Cost {
  const { name } = expression;
  if (name.startsWith("Servo.")) return SERVO;
  const known = Object.hasOwn(COSTS, name) ? COSTS[name]! : undefined;
  if (known !== undefined) return known;
  const argument = expression.arguments[0];
  const length = argument === undefined ? undefined : constantOf(argument);
  // At most 24 cycles a microsecond: no core is built for more.
  if (name === "delayMicroseconds" && length !== undefined && length >= 0) return cost(0, 24 * length + 60);
  return UNBOUNDED;
}

/** Functions that tell what they took when they are called. */
export const WAITING: ReadonlySet<string> = new Set([
  "delay",
  "delayMicroseconds",
  "_delay_ms",
  "_delay_us",
  "_delay_loop_1",
  "_delay_loop_2",
  "__builtin_avr_delay_cycles",
  "pulseIn",
  "pulseInLong",
  "sleep_mode",
  "sleep_cpu",
  "analogRead",
]);
