/** What clocks the timers from outside their own registers: GTCCR, power reduction, CLKPR, timer 2's ASSR. */
import type { CPU } from "avr8js";
import type { ChipMap } from "./chip-map.js";
import type { Timer } from "./timer.js";

/** The part of the machine that clocking acts on. */
export interface Clocked {
  readonly cpu: CPU;
  readonly map: ChipMap;
  readonly timers: readonly Timer[];
  clockDivisor: number;
  syncAll(): void;
  plan(): void;
  disturb(timer: Timer): void;
}

const CLKPCE = 0x80;

export function attachClocking(machine: Clocked): void {
  const { cpu, map } = machine;
  let clkpceUntil = -1;
  // GTCCR: TSM 7, PSRASY 1, PSRSYNC 0 (section 17.4.1). Without TSM the reset bits clear themselves.
  cpu.writeHooks[map.gtccr] = (value) => {
    machine.syncAll();
    const hold = (value & 0x80) !== 0;
    for (const timer of machine.timers) {
      const mine = (value & (1 << timer.map.prescalerReset)) !== 0;
      const held = hold && mine;
      if (mine || held !== timer.held) {
        timer.resetPrescaler(cpu.cycles);
        timer.held = held;
        machine.disturb(timer);
      }
    }
    cpu.data[map.gtccr] = hold ? value & 0x83 : 0;
    machine.plan();
    return true;
  };
  for (const address of new Set(map.timers.map((timer) => timer.prr))) {
    cpu.writeHooks[address] = (value) => {
      machine.syncAll();
      for (const timer of machine.timers) {
        if (timer.map.prr !== address) continue;
        const powered = (value & (1 << timer.map.prrBit)) === 0;
        if (powered === timer.powered) continue;
        timer.powered = powered;
        machine.disturb(timer);
      }
      cpu.data[address] = value;
      machine.plan();
      return true;
    };
  }
  // CLKPR: CLKPCE alone first, the divisor within four cycles (section 9.12.2).
  cpu.writeHooks[map.clkpr] = (value) => {
    if (value === CLKPCE) {
      clkpceUntil = cpu.cycles + 8;
    } else if ((value & CLKPCE) === 0 && cpu.cycles <= clkpceUntil) {
      machine.syncAll();
      cpu.data[map.clkpr] = value & 0x0f;
      machine.clockDivisor = 1 << Math.min(8, value & 0x0f);
      for (const timer of machine.timers) machine.disturb(timer);
    }
    return true;
  };
  for (const timer of machine.timers) {
    const { assr } = timer.map;
    if (assr === undefined) continue;
    cpu.writeHooks[assr] = (value) => {
      machine.syncAll();
      const asynchronous = (value & 0x20) !== 0;
      if (asynchronous !== timer.asynchronous) machine.disturb(timer);
      timer.asynchronous = asynchronous;
      cpu.data[assr] = value & 0x60;
      machine.plan();
      return true;
    };
  }
}
