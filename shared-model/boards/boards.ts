/** The boards carried, by id of the board packages. A board that is not here is refused by name, never guessed. */
import type { Board } from "../chip.js";
import { diecimila } from "./diecimila.js";
import { mega } from "./mega.js";
import { megaAdk } from "./mega-adk.js";
import { mini } from "./mini.js";
import { nano } from "./nano.js";
import { megaPins, type PinLayout, standardPins } from "./pin-rows.js";
import { pro } from "./pro.js";
import { uno } from "./uno.js";

export const boards: readonly Board[] = [uno, nano, pro, mini, diecimila, mega, megaAdk];

/** Ids in the order in which they are shown. */
export const boardIds: readonly string[] = boards.map((board) => board.id);

/** The board of that id, in any case (`Nano`). */
export function findBoard(id: string): Board | undefined {
  const wanted = id.toLowerCase();
  return boards.find((board) => board.id.toLowerCase() === wanted);
}

/** The pins that a bare chip gets when it runs the core: those of the boards that carry it (design section 6). */
export function corePinsOf(chipId: string): PinLayout | undefined {
  const layouts: Readonly<Record<string, PinLayout>> = {
    atmega328p: standardPins,
    atmega168p: standardPins,
    atmega168: standardPins,
    atmega2560: megaPins,
    atmega1280: megaPins,
  };
  return layouts[chipId];
}
