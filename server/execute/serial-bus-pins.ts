/**
 * Pins that SPI drives while it is on: MOSI and SCK show what is sent, whatever PORT says (DS40002061 section 19.2, table 19-1).
 * Law: from the moment SPI may be on, the level of these pins is one that is not known.
 */
import { corePinsOf } from "../../shared-model/boards/boards.js";
import { pinPlaces } from "./core/pins.js";
import * as number from "./domain/number.js";
import { BYTE } from "./hardware/machine.js";
import type { Run } from "./run.js";
import type { State } from "./state.js";

const SPE = 0x40;

/** SPCR has been written. */
export function busTakesPins(run: Run, state: State): void {
  if ((state.machine.raw(run.layout.busControl).zeros & SPE) !== 0) return;
  const names = (run.target.board ?? corePinsOf(run.chip.id))?.constants ?? {};
  for (const name of ["MOSI", "SCK"]) {
    const pin = pinPlaces(run).get(names[name] ?? -1);
    if (pin === undefined) continue;
    const level = state.machine.raw(pin.output);
    const other = ~(1 << pin.bit) & 0xff;
    const either = number.fromBits(level.zeros & other, level.ones & other, BYTE);
    state.machine.store(pin.output, either, -1);
  }
}
