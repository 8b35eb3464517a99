/**
 * init(): what the core does before setup. Every timer register but TCCR1B is ORed into, so what was there stays.
 * Source: wiring.c of the packaged core.
 */
import * as number from "../domain/number.js";
import { BYTE } from "../hardware/machine.js";
import { coreContext, writeRegister } from "../register-writes.js";
import type { Run } from "../run.js";
import { spendCycles } from "../spending.js";
import type { State } from "../state.js";
import { setEnable } from "./interrupt-control.js";

/** Between two of init's writes, and from the last one to the first of setup (counted in wiring.c and main.cpp as compiled, with a margin). */
const WRITE_CYCLES = 20;
const INIT_CYCLES = 300;

/** The site under which init's writes are kept: no place of the sketch. */
export const INIT_SITE = -1;

export function initCore(run: Run, state: State): void {
  setEnable(run, state, true);
  const seen = watchStart(run, state);
  const or = (register: string, bits: number): void => {
    const address = run.layout.address(register);
    if (address < 0) return;
    const before = state.machine.raw(address);
    const mask = number.constant(bits, BYTE);
    const context = { ...coreContext(INIT_SITE, INIT_SITE), operator: "init", preserves: ~bits & 0xff };
    spendCycles(run, state, WRITE_CYCLES);
    writeRegister(run, state, address, false, number.or(before, mask, BYTE), context);
  };
  const set = (register: string, value: number): void => {
    const address = run.layout.address(register);
    if (address < 0) return;
    spendCycles(run, state, WRITE_CYCLES);
    writeRegister(run, state, address, false, number.constant(value, BYTE), {
      ...coreContext(INIT_SITE, INIT_SITE),
      operator: "init",
    });
  };
  or("TCCR0A", 0x02);
  or("TCCR0A", 0x01);
  or("TCCR0B", 0x02);
  or("TCCR0B", 0x01);
  or("TIMSK0", 0x01);
  set("TCCR1B", 0);
  or("TCCR1B", 0x02);
  if (run.target.fCpu >= 8_000_000) or("TCCR1B", 0x01);
  or("TCCR1A", 0x01);
  or("TCCR2B", 0x04);
  or("TCCR2A", 0x01);
  for (const timer of [3, 4, 5]) {
    or(`TCCR${timer}B`, 0x02);
    or(`TCCR${timer}B`, 0x01);
    or(`TCCR${timer}A`, 0x01);
  }
  or("ADCSRA", converterPrescaler(run.target.fCpu) | 0x80);
  set("UCSR0B", 0);
  seen(state);
  settleClocks(run, state);
}

/** Registers that init may change. */
const TOUCHED = ["TIMSK0", "ADCSRA", "UCSR0B", ...[0, 1, 2, 3, 4, 5].flatMap((n) => [`TCCR${n}A`, `TCCR${n}B`])];

/** Remembers what was written before init; the answer, asked afterwards, puts on record what init made of it. */
export function watchStart(run: Run, state: State): (after: State) => void {
  const earlier = TOUCHED.map((register) => run.layout.address(register))
    .filter((address) => address >= 0)
    .map((address) => ({
      address,
      sites: state.machine.writersOf(address),
      value: state.machine.raw(address),
    }));
  return (after) => {
    for (const { address, sites, value } of earlier) {
      const now = after.machine.raw(address);
      if (sites.length > 0 && !number.equal(now, value)) run.collector.wiped(address, sites, now);
    }
  };
}

/** A few cycles after the clocks were started the counters stand at 0 or 1. */
export function settleClocks(run: Run, state: State): void {
  if (!state.timePassed) for (const timer of run.layout.timers) state.machine.setReach(timer.index, 1);
  state.cycles = 0;
  spendCycles(run, state, INIT_CYCLES);
}

/** ADPS2..0 for 50 to 200 kHz. */
function converterPrescaler(fCpu: number): number {
  if (fCpu >= 16_000_000) return 7;
  if (fCpu >= 8_000_000) return 6;
  if (fCpu >= 4_000_000) return 5;
  if (fCpu >= 2_000_000) return 4;
  return fCpu >= 1_000_000 ? 3 : 1;
}
