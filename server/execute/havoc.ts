/** What becomes of the world when something runs that cannot be seen: all it could reach is unknown afterwards. Law: nothing that it could have changed is believed. */
import * as number from "./domain/number.js";
import { BYTE, WORD } from "./hardware/machine.js";
import { forget } from "./places.js";
import type { Run } from "./run.js";
import { objectOf, type State } from "./state.js";

/** Every register may hold anything. `site` is kept as the writer. */
export function havocHardware(run: Run, state: State, site: number): void {
  const { machine } = state;
  const { layout } = run;
  run.timing?.abandon();
  state.counters = null;
  for (let address = 0x20; address < layout.size; address++) {
    const register = layout.registers[address];
    if (register === undefined && !layout.wide[address]) continue;
    if (layout.roles[address]?.kind === "high") continue;
    const value = layout.wide[address]
      ? number.top(WORD)
      : number.fromBits((~(register?.writable ?? 0xff) & 0xff) >>> 0, 0, BYTE);
    machine.store(address, value, site);
  }
  for (const timer of layout.timers) machine.setReach(timer.index, 0xffff);
  for (const channel of layout.channels) {
    machine.setSplit(channel.index, null);
    const anything = number.top(layout.timers[channel.timer]!.wide ? WORD : BYTE);
    machine.setWorking(channel.index, anything);
    machine.setHeld(channel.index, anything);
  }
}

/** Every variable that code elsewhere could know of may hold anything. */
export function havocMemory(run: Run, state: State): void {
  for (const variable of run.program.globals) {
    if (!variable.constant) forget(state, objectOf(variable, 0), variable.type);
  }
  for (const [object] of state.memory) {
    const variable = run.variables.get(Math.floor(object / 256));
    if (variable !== undefined && variable.storage !== "global" && variable.addressTaken)
      forget(state, object, variable.type);
  }
}
