/** Programs of several files: a source with a header of its own, constants in a header, a class in a header. */
import type { Draft } from "../draft.js";
import { I16, U8 } from "../types.js";
import type { Style } from "./styles.js";

export const UNIT_STYLES: readonly Style[] = [
  { percent: 5, write: sourceWithHeader },
  { percent: 4, write: classInHeader },
];

/** `vent.h` and `vent.cpp`: functions with state of their own. */
function sourceWithHeader(draft: Draft): void {
  const { dice } = draft;
  const { number: n, channels } = dice.pick(draft.timers);
  const { letter, pin } = dice.pick(channels);
  const unit = `OCR${n}${letter}`;
  const isC = dice.chance(30);
  const [open, start, turn, level] = [
    draft.fresh("ventOpen"),
    draft.fresh("ventStart"),
    draft.fresh("ventTurn"),
    draft.fresh("ventLevel"),
  ];
  draft.beside["vent.h"] = [
    "#ifndef VENT_H",
    "#define VENT_H",
    "#include <Arduino.h>",
    `#define VENT_MOST ${dice.int(100, 255)}`,
    ...(isC ? ["#ifdef __cplusplus", 'extern "C" {', "#endif"] : []),
    `extern uint8_t ${level};`,
    `void ${start}(void);`,
    `void ${open}(int by);`,
    `uint8_t ${turn}(uint8_t most);`,
    ...(isC ? ["#ifdef __cplusplus", "}", "#endif"] : []),
    "#endif",
    "",
  ].join("\n");
  draft.beside[isC ? "vent.c" : "vent.cpp"] = [
    '#include "vent.h"',
    `static uint8_t step = ${dice.int(1, 30)};`,
    `static const uint8_t rows[3] = { ${dice.int(0, 255)}, ${dice.int(0, 255)}, ${dice.int(0, 255)} };`,
    `uint8_t ${level} = ${dice.int(0, 200)};`,
    `static void apply(void) { ${unit} = ${level}; }`,
    `void ${start}(void) { pinMode(${pin}, OUTPUT); TCCR${n}A |= _BV(COM${n}${letter}1); apply(); }`,
    `void ${open}(int by) { ${level} += by * step; if (${level} > VENT_MOST) ${level} = VENT_MOST; apply(); }`,
    `uint8_t ${turn}(uint8_t most) { ${level} = rows[most % 3]; step++; apply(); return ${level}; }`,
    "",
  ].join("\n");
  draft.head.unshift('#include "vent.h"');
  draft.actions.push({ name: start, parameters: [] }, { name: open, parameters: [I16] });
  draft.globals.push(draft.variable(level, U8, true));
  draft.statements.push((names) =>
    dice.pick([
      [`${start}();`],
      [`${open}(${dice.int(-3, 9)});`],
      [`OCR1A = ${turn}(${draft.between(names, 0, 9)}) * 2;`],
      [`if (${level} < VENT_MOST) ${open}(1);`],
    ]),
  );
}

/** `lamp.h` with a class whose methods stand in the class; used by value, by pointer and in a row. */
function classInHeader(draft: Draft): void {
  const { dice } = draft;
  const type = draft.fresh("Lamp");
  const row = draft.fresh("lamps");
  const pins = draft.timers.slice(0, 3).map(({ channels }) => dice.pick(channels).pin);
  draft.beside["lamp.h"] = [
    "#pragma once",
    '#include "Arduino.h"',
    `class ${type} {`,
    "public:",
    `  ${type}(uint8_t pin) : pin(pin), level(${dice.int(0, 90)}) {}`,
    "  void begin() { pinMode(pin, OUTPUT); }",
    `  void dim(int by) { level = constrain(level + by, 0, ${dice.int(120, 255)}); analogWrite(pin, level); }`,
    "  bool lit() const { return level > 0; }",
    "private:",
    "  uint8_t pin;",
    "  int level;",
    "};",
    "",
  ].join("\n");
  draft.head.unshift('#include "lamp.h"');
  draft.head.push(`${type} ${row}[] = { ${pins.map((pin) => `${type}(${pin})`).join(", ")} };`);
  draft.statements.push((names) =>
    dice.pick([
      [`${row}[${draft.between(names, 0, pins.length - 1)}].dim(${dice.int(-60, 90)});`],
      [`for (${type} &lamp : ${row}) lamp.begin();`],
      [`for (byte k = 0; k < ${pins.length}; k++) if (${row}[k].lit()) ${row}[k].dim(k * ${dice.int(1, 40)});`],
    ]),
  );
}
