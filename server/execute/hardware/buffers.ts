/** Compare values on their way from buffer to comparator (DS40002061 sections 15.9, 16.11 and 18.11). */
import * as number from "../domain/number.js";
import { mapAlternatives } from "./alternatives.js";
import { runs } from "./counting.js";
import type { TimerSlot } from "./layout.js";
import type { Machine } from "./machine.js";
import { longestPeriod } from "./modes.js";

/**
 * Buffered compare values arrive: called where time passes, at least `cycles` of it. What signals are claimed for is the
 * value after one more period; what the unit holds by then is kept apart. `surely` false: time may not pass at all.
 * `counters`: what they know has been taken over by them.
 */
export function takeOverBuffers(
  machine: Machine,
  cycles: number,
  surely = true,
  counters: { knows(timer: TimerSlot): boolean } | null = null,
): void {
  if (surely && cycles > 0) {
    for (const timer of machine.layout.timers) {
      if (machine.reachOf(timer.index) === 0) continue;
      if (runs(machine, timer) === true && cycles >= longestPeriod(machine, timer)) machine.setReach(timer.index, 0);
    }
  }
  for (const channel of machine.layout.channels) {
    const buffered = machine.raw(channel.compare);
    const waits =
      machine.splitOf(channel.index)?.some((entry) => !number.equal(entry.compare, entry.buffered)) ?? false;
    const arrived =
      number.equal(buffered, machine.workingOf(channel.index)) && number.equal(buffered, machine.heldBy(channel.index));
    if (!waits && arrived) continue;
    const timer = machine.layout.timers[channel.timer]!;
    const counts = runs(machine, timer);
    if (counts === false) continue;
    const claimed = counts === true && surely;
    machine.setWorking(channel.index, claimed ? buffered : number.join(buffered, machine.workingOf(channel.index)));
    const over = claimed && cycles >= longestPeriod(machine, timer);
    if (counters?.knows(timer) !== true)
      machine.setHeld(channel.index, over ? buffered : number.join(buffered, machine.heldBy(channel.index)));
    mapAlternatives(machine, channel, (entry) => ({
      ...entry,
      compare: claimed ? entry.buffered : number.join(entry.compare, entry.buffered),
    }));
  }
}

/** Whether some compare value may still be in its buffer. */
export function hasWaiting(machine: Machine): boolean {
  return machine.layout.channels.some(
    (channel) => !number.equal(machine.raw(channel.compare), machine.heldBy(channel.index)),
  );
}
