/** The built-in macro tables against the headers themselves. Needs avr-gcc, avr-libc and the packaged core. */
import { describe, expect, test } from "vitest";
import { baseTable } from "../../server/preprocess/base-table.js";
import type { Macro } from "../../server/preprocess/macro.js";
import { findBoard } from "../../shared-model/boards/boards.js";
import type { Board, Chip } from "../../shared-model/chip.js";
import { findChip } from "../../shared-model/chips/chips.js";
import { ON_UNO, sketch, tokens } from "../preprocess/expand-text.js";
import { CORE, compilerExpands } from "./compiler.js";

/** Headers of the C library and the core; those of libraries are not in the packaged core's include path. */
const HEADERS = [
  ...["Arduino.h", "wiring_private.h", "util/delay.h", "util/atomic.h", "util/twi.h", "avr/wdt.h", "avr/sleep.h"],
  ...["avr/power.h", "avr/eeprom.h", "avr/cpufunc.h", "avr/boot.h", "limits.h", "float.h", "errno.h", "assert.h"],
  ...["stdio.h", "setjmp.h", "time.h", "util/parity.h"],
];
const INCLUDES = HEADERS.map((name) => `#include <${name}>\n`).join("");

/** Where ours differs on purpose: the files' headings say why. */
const ON_PURPOSE = [
  /^(sei|cli|reti|_NOP)$/,
  /^(ISR|SIGNAL|EMPTY_INTERRUPT|ISR_ALIAS|ISR_ALIASOF|ISR_NAKED|ISR_NOBLOCK|BADISR_vect|interrupts|noInterrupts)$/,
  /^(NON)?ATOMIC_/,
  /^(PROGMEM|PSTR|F|EEMEM)$/,
  /_vect$|^__vector_|^_VECTOR$/,
  /^P[A-L][0-7]$/,
  /^clock_div_/,
  /^power_all_|^sleep_mode$/,
  /^(digitalPinToPCICR|digitalPinToPCMSK)$/,
  /^bit_is_|^loop_until_|^_?[sc]bi$/,
  /^_Pragma$|^__DATE__$|^__TIME|^__FILE__$|^__BASE_FILE__$|^__LINE__$|^__COUNTER__$|^__INCLUDE_LEVEL__$/,
  /^__OPTIMIZE|^__NO_INLINE__$/,
  // The compiler's own takes a type for an argument, which is no C++ to a parser; a cast says the same.
  /^va_arg$/,
];

interface Target {
  readonly name: string;
  readonly board: string;
  readonly chip: string;
  readonly variant: string;
}

const TARGETS: readonly Target[] = [
  { name: "uno", board: "uno", chip: "atmega328p", variant: "standard" },
  { name: "nano with ATmega168", board: "nano", chip: "atmega168", variant: "eightanaloginputs" },
  { name: "mega", board: "mega", chip: "atmega2560", variant: "mega" },
];

describe.each(TARGETS)("built-in macros of the $name", ({ board: boardId, chip: chipId, variant }) => {
  const board = findBoard(boardId) as Board;
  const chip = findChip(chipId) as Chip;
  const options = { ...ON_UNO, chip, board, boardMacro: board.macro };
  const flags = [
    ...[`-mmcu=${chipId}`, "-Os", "-DF_CPU=16000000L", "-DARDUINO=10819", "-DARDUINO_ARCH_AVR", `-D${board.macro}`],
    ...[`-I${CORE}/cores/arduino`, `-I${CORE}/variants/${variant}`],
  ];
  const table = baseTable(options);
  const names = [...table.macros.values()].filter((macro) => !/^B[01]+$/.test(macro.name) || macro.name.length > 8);

  /** Which of the names the headers define, one question for all. */
  const defined = new Set(
    tokens(
      compilerExpands(
        INCLUDES + names.map(({ name }, index) => `#ifdef ${name}\n@${index}\n#endif\n`).join(""),
        flags,
      ) as string,
    )
      .split("@")
      .slice(1)
      .map((number) => names[Number.parseInt(number, 10)]?.name),
  );

  test("what is carried exists", () => {
    const libraries = new Set(["SPI.h", "Wire.h", "SoftwareSerial.h", "Servo.h"]);
    const ofLibraries = new Set(
      [...table.headers.values()].filter(({ name }) => libraries.has(name)).map(({ number }) => number),
    );
    const missing = names.filter((macro) => !defined.has(macro.name) && !ofLibraries.has(macro.header));
    // Enumerators and inline functions there; what C files alone have; what the 168's older header forgot.
    const known = /^(clock_|U?LLONG_|__vector_|__STDC_VERSION__|_Pragma|SLEEP_MODE_EXT_STANDBY$|sleep_bod_disable$)/;
    expect(missing.map(({ name }) => name).filter((name) => !known.test(name))).toEqual([]);
  });

  test("what is carried expands to the same tokens", () => {
    const asked = names.filter(
      (macro) => defined.has(macro.name) && !macro.self && !ON_PURPOSE.some((pattern) => pattern.test(macro.name)),
    );
    const program = `${INCLUDES}\n@@@\n${asked.map((macro, index) => `@${index} ${use(macro)}`).join("\n")}\n`;
    // Registers are names here and addresses there: their definitions are taken away before asking.
    const registers = [...chip.registers, ...chip.wide].map(({ name }) => `#undef ${name}\n`).join("");
    const theirs = tokens(compilerExpands(program.replace("@@@", `${registers}@@@`), flags) as string);
    const ours = tokens(sketch(program, {}, options).text);
    const split = (text: string) => text.slice(text.indexOf("@ @ @") + 5).split(/ @ (?=\d)/);
    expect(split(ours)).toEqual(split(theirs));
    expect(asked.length).toBeGreaterThan(500);
  });

  test("what a sketch may ask for is carried", () => {
    const all = compilerExpands(INCLUDES, [...flags, "-dM"]) as string;
    const missing = all
      .split("\n")
      .map((line) => /^#define (\w+)/.exec(line)?.[1])
      .filter(
        (name) => name !== undefined && !table.macros.has(name) && !LEFT_OUT.some((pattern) => pattern.test(name)),
      );
    expect(missing).toEqual([]);
  });
});

/** Macros of the real headers that are not carried: inner workings, and names that say nothing about timers. */
const LEFT_OUT = [
  /^_/,
  /^(FUSE|LFUSE|HFUSE|EFUSE|LOCK|LB_|BLB|SIGNATURE_|SPM_PAGESIZE|E2PAGESIZE|XRAMSIZE|SCN|FDEV|fdev_)/,
  /^(AVR_(STACK|STATUS|RAMPZ|EXTENDED)|[XYZ][HL]$|HAVE_|CDC|boot_|BOOT|GET_|BOD_CONTROL_REG|EXTERNAL_NUM_INTERRUPTS|TIME_H)/,
  /^E[A-Z0-9]+$|^(LDBL|DBL|FLT)_|^(ONE_(HOUR|DAY|DEGREE)|NTP_OFFSET|UNIX_OFFSET|CLOCKS_PER_SEC)$/,
  /^(clearerror|feof|ferror)$/,
];

function use(macro: Macro): string {
  if (macro.parameters === undefined) return macro.name;
  return `${macro.name}(${macro.parameters.map((_, index) => `a${index}`).join(", ")})`;
}
