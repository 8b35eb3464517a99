/** delay, delayMicroseconds, millis, micros, pulseIn, avr-libc's delays, sleep, watchdog, clock divisor. Source: wiring.c, wiring_pulse.c; util/delay.h, avr/power.h. */
import * as number from "../domain/number.js";
import { BYTE } from "../hardware/machine.js";
import { coreContext, writeRegister } from "../register-writes.js";
import { passTime } from "../time-passing.js";
import type { CoreCall, Model } from "./core.js";
import { initCore } from "./init.js";

/** A wait of some length; none at all where the length is 0. */
function wait(call: CoreCall): null {
  const { run, state, expression, values } = call;
  if (LISTED.has(call.name))
    run.collector.call(run, call.name, expression.start, expression.end, expression.written, values);
  const length = values[0];
  const never = length !== undefined && "zeros" in length && number.holdsOnly(length, 0);
  if (!never) passTime(run, state, expression.start);
  return null;
}

function listed(call: CoreCall): null {
  const { run, expression, values } = call;
  run.collector.call(run, call.name, expression.start, expression.end, expression.written, values);
  return null;
}

const LISTED = new Set(["delay", "delayMicroseconds", "pulseIn", "pulseInLong"]);

/** clock_prescale_set: both steps of the timed sequence. */
function clockPrescaleSet(call: CoreCall): null {
  const { run, state, expression } = call;
  const address = run.layout.address("CLKPR");
  const value = call.values[0];
  const context = coreContext(expression.start, expression.end);
  writeRegister(run, state, address, false, number.constant(0x80, BYTE), context);
  writeRegister(
    run,
    state,
    address,
    false,
    value !== undefined && "zeros" in value ? value : number.top(BYTE),
    context,
  );
  return null;
}

export const timeModels: Readonly<Record<string, Model>> = {
  delay: wait,
  delayMicroseconds: wait,
  _delay_ms: wait,
  _delay_us: wait,
  _delay_loop_1: wait,
  _delay_loop_2: wait,
  __builtin_avr_delay_cycles: wait,
  pulseIn: wait,
  pulseInLong: wait,
  millis: listed,
  micros: listed,
  sleep_mode: wait,
  sleep_cpu: wait,
  clock_prescale_set: clockPrescaleSet,
  // A main() of the sketch's own may call it.
  init: (call) => {
    initCore(call.run, call.state);
    return null;
  },
};
