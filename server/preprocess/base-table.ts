/** The built-in macros for one chip, board and clock, made once and shared by every analysis for the same. */
import type { Chip } from "../../shared-model/chip.js";
import { AVR_HEADERS } from "./builtin-avr.js";
import { chipLines, coreLines, type PinNames, pinLines, powerLines } from "./builtin-chip.js";
import { C_MACROS, COMPILER_MACROS, CPLUSPLUS_MACROS } from "./builtin-compiler.js";
import { CORE_HEADERS, LIBRARY_HEADERS } from "./builtin-core.js";
import { LIBC_HEADERS } from "./builtin-libc.js";
import { readLines } from "./builtin-lines.js";
import { type Dynamic, dynamicMacro, type Macro } from "./macro.js";
import { type BaseTable, type BuiltinHeader, FILTER_SIZE, hashOf } from "./macro-table.js";

export interface BaseTarget {
  readonly chip: Chip;
  readonly board: PinNames | null;
  readonly boardMacro: string | null;
  /** Hz. */
  readonly fCpu: number;
  readonly arduinoVersion: number;
}

/** Header "names" that no include can say: in force by the language of the file. */
export const IN_CPLUSPLUS = "\0c++";
export const IN_C = "\0c";

const DYNAMIC: Readonly<Record<string, Dynamic>> = {
  __LINE__: "line",
  __FILE__: "file",
  __BASE_FILE__: "base file",
  __COUNTER__: "counter",
  __INCLUDE_LEVEL__: "depth",
};

/** How many tables are kept; a session seldom sees more targets. */
const KEPT = 8;
const cache = new Map<string, { target: BaseTarget; table: BaseTable }>();

export function baseTable(target: BaseTarget): BaseTable {
  const { chip, board, boardMacro, fCpu, arduinoVersion } = target;
  const key = [chip.id, board?.id ?? board?.pins.length ?? "", boardMacro ?? "", fCpu, arduinoVersion].join(" ");
  const kept = cache.get(key);
  // Same names need not mean the same tables: a caller may bring its own.
  if (kept !== undefined && kept.target.chip === chip && kept.target.board?.pins === board?.pins) return kept.table;
  const table = makeTable(target);
  cache.delete(key);
  cache.set(key, { target, table });
  if (cache.size > KEPT) cache.delete(cache.keys().next().value as string);
  return table;
}

function makeTable(target: BaseTarget): BaseTable {
  const { chip, board, boardMacro, fCpu, arduinoVersion } = target;
  const macros = new Map<string, Macro>();
  const headers = new Map<string, BuiltinHeader>();
  const filter = new Uint8Array(FILTER_SIZE);
  const add = (list: readonly Macro[]): void => {
    for (const macro of list) {
      // The first header to give a name keeps it: none of those carried disagree.
      if (!macros.has(macro.name)) macros.set(macro.name, macro);
      filter[hashOf(macro.name)] = 1;
    }
  };
  const addHeader = (name: string, pulls: readonly string[], lines: string, replaceable: boolean): void => {
    const number = headers.size + 1;
    const own = readLines(lines, number);
    headers.set(name, { name, number, pulls, replaceable, macros: own });
    add(own);
  };
  const fromChip: Readonly<Record<string, string>> = {
    "avr/io.h": chipLines(chip),
    "avr/power.h": powerLines(chip),
    "Arduino.h": coreLines(chip),
    "pins_arduino.h": board === null ? "" : pinLines(board),
  };

  add(Object.entries(DYNAMIC).map(([name, dynamic]) => dynamicMacro(name, dynamic)));
  const command = [`F_CPU ${fCpu}L`, `ARDUINO ${arduinoVersion}`, "ARDUINO_ARCH_AVR 1", `${chip.macro} 1`];
  command.push(`__AVR_ARCH__ ${architecture(chip)}`);
  command.push(chip.flashBytes > 128 * 1024 ? "__AVR_3_BYTE_PC__ 1" : "__AVR_2_BYTE_PC__ 1");
  command.push(`__AVR_DEVICE_NAME__ ${chip.id}`);
  if (chip.flashBytes > 64 * 1024) command.push("__AVR_HAVE_ELPM__ 1", "__AVR_HAVE_ELPMX__ 1", "__AVR_HAVE_RAMPZ__ 1");
  if (boardMacro !== null) command.push(`${boardMacro} 1`);
  add(readLines(COMPILER_MACROS + command.join("\n"), 0));
  addHeader(IN_CPLUSPLUS, [], CPLUSPLUS_MACROS, false);
  addHeader(IN_C, [], C_MACROS, false);
  for (const [name, pulls, lines] of [...LIBC_HEADERS, ...AVR_HEADERS, ...CORE_HEADERS]) {
    addHeader(name, pulls, `${lines}\n${fromChip[name] ?? ""}`, false);
  }
  for (const [name, pulls, lines] of LIBRARY_HEADERS) addHeader(name, pulls, lines, true);
  return { macros, filter, headers };
}

/** The compiler's number for the chip's family: by size of flash memory, and whether there is a multiplier. */
function architecture(chip: Chip): number {
  if (chip.flashBytes > 128 * 1024) return 6;
  if (chip.flashBytes > 64 * 1024) return 51;
  if (chip.flashBytes > 8 * 1024) return 5;
  return chip.id.startsWith("attiny") ? 25 : 4;
}
