/** Floats of frequencies and shares, 64-bit products, flags, signed shifts and effects inside expressions. */
import type { Draft } from "../draft.js";
import { U8, U16 } from "../types.js";
import type { Style } from "./styles.js";

export const NUMBER_STYLES: readonly Style[] = [
  { percent: 10, write: frequency },
  { percent: 8, write: share },
  { percent: 6, write: wideProduct },
  { percent: 8, write: flags },
  { percent: 8, write: signedShifts },
  { percent: 9, write: effectsInside },
  { percent: 6, write: smallTypes },
  { percent: 4, write: averages },
];

/** TOP from a frequency, in floats. */
function frequency(draft: Draft): void {
  const { dice } = draft;
  const name = draft.fresh("setFrequency");
  const { number: n } = dice.pick(draft.timers.filter(({ wide }) => wide));
  const divisor = dice.pick([1, 8, 64, 256, 1024]);
  const clock = { 1: 1, 8: 2, 64: 3, 256: 4, 1024: 5 }[divisor]!;
  const real = dice.pick(["float", "double"]);
  const lowest = Math.ceil(16e6 / divisor / 60000) + 1;
  const formula = dice.pick([
    `F_CPU / ${divisor}.0 / hz - 1`,
    `(${real})F_CPU / (${divisor} * hz) - 1.0`,
    `16000000.0f / ${divisor} / hz - 1.0f + 0.5f`,
    `round(F_CPU / (hz * ${divisor}.0)) - 1`,
  ]);
  draft.body.push(
    `void ${name}(${real} hz, ${real} part = 0.5) {`,
    `  ${dice.pick(["unsigned int", "uint16_t", "unsigned long", "long"])} top = ${formula};`,
    `  ICR${n} = top;`,
    `  OCR${n}A = ${dice.pick(["top * part", "(uint16_t)(part * top)", "(top + 1) * part + 0.5"])};`,
    `  TCCR${n}A = _BV(COM${n}A1) | _BV(WGM${n}1);`,
    `  TCCR${n}B = _BV(WGM${n}3) | ${dice.pick([`_BV(WGM${n}2) | `, ""])}${clock};`,
    "}",
    "",
  );
  draft.statements.push((names) => {
    const hz = dice.pick([lowest, lowest * 1.5 + 0.25, lowest * 3.7, lowest * 9.125, lowest + 33.3]);
    const part = dice.pick(["", "", ", 0.25", ", 1 / 3.0", ", 0.999f", ", 75 / 100.0"]);
    const asked = dice.chance(70) ? String(hz) : `${lowest} + ${draft.between(names, 0, 800)}`;
    return [`${name}(${asked}${part});`];
  });
}

/** Duty from a share in percent or between 0 and 1. */
function share(draft: Draft): void {
  const { dice } = draft;
  const timer = dice.pick(draft.timers);
  const channel = dice.pick(timer.channels);
  const level = draft.fresh("share");
  draft.head.push(
    `${dice.pick(["float", "double"])} ${level} = ${dice.pick(["0.5", "12.5", "33.3f", "1e1", "0", "99"])};`,
  );
  const unit = `OCR${timer.number}${channel.letter}`;
  const full = timer.wide ? 1023 : 255;
  draft.statements.push((names, repeated) =>
    dice.pick([
      [`${level} = ${draft.between(names, 0, 100)};`, `${unit} = ${level} * ${full} / 100;`],
      [`${level} = ${draft.between(names, 0, 1023)} / 1023.0 * 100;`, `${unit} = (int)(${level} * 2.55 + 0.5);`],
      [`analogWrite(${channel.pin}, 255 * (${draft.between(names, 1, 99)} / 100.0));`],
      [`if (${level} > ${dice.pick(["12.4", "50", "33.3", "0.5f"])}) ${unit} = ${dice.int(0, 255)};`],
      [`${unit} = ${full} - ${full} * ${dice.pick(["0.1", "0.25f", "1.0 / 3", "sqrt(0.5)", "0.7071"])};`],
      repeated
        ? [`${unit} = (uint8_t)(${level} / ${dice.int(2, 9)} + ${dice.int(1, 100)});`]
        : [`${level} = ${level} * 0.5 + ${dice.int(0, 40)};`, `${unit} = (byte)(${level} / 2);`],
      [
        `${unit} = ${level} >= 1 && ${level} < 60 ? (byte)${dice.pick(["fabs", "floor", "ceil"])}(${level}) : ${dice.int(0, 99)};`,
      ],
    ]),
  );
}

function wideProduct(draft: Draft): void {
  const { dice } = draft;
  const name = draft.fresh("scaled");
  draft.body.push(
    `uint16_t ${name}(uint32_t value, uint32_t gain) {`,
    `  uint64_t wide = (uint64_t)value * gain;`,
    dice.pick([
      "  return (wide >> 16) & 0x3FF;",
      "  return wide / 65536ULL % 1000;",
      "  int64_t half = wide >> 1; return (half - 5) & 511;",
      "  return (uint16_t)(wide >> 32) ^ (uint16_t)wide & 0xFF;",
    ]),
    "}",
    "",
  );
  draft.statements.push((names) => [
    `OCR1${dice.pick(["A", "B"])} = ${name}(${draft.expressions.value(names, 2).text}, ${dice.pick(["70000UL", "0xFFFFFFFF", "F_CPU", "3"])});`,
  ]);
}

/** bool and boolean: conditions kept, toggled, counted with. */
function flags(draft: Draft): void {
  const { dice } = draft;
  const flag = draft.fresh("flag");
  const spelled = dice.pick(["bool", "boolean"]);
  draft.head.push(`${spelled} ${flag} = ${dice.pick(["true", "false", "1", "0"])};`);
  const { number: n, channels } = dice.pick(draft.timers);
  const { letter } = dice.pick(channels);
  const unit = `OCR${n}${letter}`;
  draft.statements.push((names) =>
    dice.pick([
      [`${flag} = !${flag};`],
      [`${flag} = ${draft.expressions.value(names, 2).text};`, `${unit} = ${flag} * ${dice.int(2, 200)};`],
      [`if (${flag}) ${unit} = ${draft.between(names, 0, 255)}; else ${unit} = ${dice.int(0, 255)};`],
      [`${flag} ^= ${draft.expressions.condition(names, 2).text};`],
      [
        `${flag} = ${draft.expressions.condition(names, 2).text};`,
        `${unit} = ${flag} ? ${dice.int(0, 99)} : ${dice.int(100, 255)};`,
      ],
      [
        `${spelled} both = ${flag} && ${draft.expressions.condition(names, 2).text};`,
        `${unit} = both + ${flag} + ${dice.int(0, 9)};`,
      ].map((line, index) => (index === 0 ? `{ ${line}` : `${line} }`)),
      [`${flag} |= ${dice.int(0, 3)};`],
    ]),
  );
}

/** Right shifts of negative numbers, sign extension, narrow signed compound assignments. */
function signedShifts(draft: Draft): void {
  const { dice } = draft;
  const level = draft.fresh("level");
  const type = dice.pick(["int8_t", "int", "long", "int16_t", "signed char", "char"]);
  draft.head.push(`${type} ${level} = ${dice.int(-100, 100)};`);
  const unit = dice.pick(["OCR1A", "OCR1B", "OCR2B", "OCR0B"]);
  draft.statements.push((names) =>
    dice.pick([
      [`${level} >>= ${dice.int(1, 4)};`, `${unit} = ${level};`],
      [`${level} = -${dice.int(1, 100)} >> ${dice.int(0, 5)};`, `${unit} = ${level} & 0xFF;`],
      [`${level} /= -${dice.int(2, 9)};`, `${unit} = ${level} + ${dice.int(100, 200)};`],
      [`${level} %= ${dice.int(2, 50)};`, `${unit} = (uint16_t)${level} >> ${dice.int(1, 9)};`],
      [
        `${level} = (int8_t)${draft.between(names, 0, 255)};`,
        `${unit} = (unsigned char)${level} ^ ${dice.int(0, 99)};`,
      ],
      [`${unit} = (uint16_t)(int16_t)(int8_t)${level} / ${dice.int(2, 99)};`],
      [`${unit} = ${level} < 0 ? -(${level} / 2) : ${level};`],
      [`${level} &= ${dice.pick(["0x7F", "~1", "-2", "15"])};`],
    ]),
  );
}

/** Assignments, increments and calls with effects inside conditions and indices. */
function effectsInside(draft: Draft): void {
  const { dice } = draft;
  const count = draft.fresh("count");
  const ready = draft.fresh("ready");
  draft.head.push(`byte ${count} = ${dice.int(0, 9)};`);
  draft.body.push(
    `bool ${ready}(byte by) { ${count} += by; return ${count} ${dice.pick(["> 12", "& 1", "% 3 == 0", "!= 5"])}; }`,
    "",
  );
  const unit = dice.pick(["OCR2A", "OCR2B", "OCR0A", "OCR1B"]);
  const other = dice.pick(["OCR0B", "OCR1A"]);
  draft.statements.push((names) =>
    dice.pick([
      [`if (${count}++ > ${dice.int(1, 9)}) ${unit} = ${count};`],
      [`if (${ready}(${dice.int(1, 5)}) && ${ready}(1)) ${unit} = ${draft.between(names, 0, 255)};`],
      [
        `if (${draft.expressions.condition(names, 2).text} || ${ready}(2)) ${unit} = ${count}; else ${other} = ${count} * 2;`,
      ],
      [`${unit} = ${other} = ${draft.between(names, 0, 255)};`],
      [`${unit} = (${count} += ${dice.int(1, 7)}, ${count} & 0x7F);`],
      [`${other} = ${ready}(${dice.int(0, 3)}) ? ${count}++ : --${count};`],
      [`while (${count} > ${dice.int(6, 12)}) { ${count} -= 3; ${unit} = ${count}; }`],
      [`do ${unit} = ${count}--; while (${count} & 3);`],
      [`if (byte left = ${count} % ${dice.int(2, 7)}) ${unit} = left * ${dice.int(1, 50)};`],
      [`for (byte k = 0, m = ${dice.int(5, 20)}; k < m; k += 2, m--) ${unit} = k + m;`],
      [`!${ready}(1) ? ${unit} = ${dice.int(0, 99)} : ${other} = ${dice.int(0, 99)};`],
      [`for (;;) { if (++${count} % 4 == 0) break; ${unit} = ${count}; }`],
    ]),
  );
  draft.globals.push(draft.variable(count, U8, true));
}

/** Narrow variables that wrap, and chars. */
function smallTypes(draft: Draft): void {
  const { dice } = draft;
  const wrap = draft.fresh("wrap");
  const letter = draft.fresh("letter");
  draft.head.push(`uint8_t ${wrap} = ${dice.int(200, 255)};`, `char ${letter} = '${dice.pick(["a", "Z", "0", "~"])}';`);
  const unit = dice.pick(["OCR1A", "OCR1B", "OCR2A", "OCR0B"]);
  draft.statements.push((names) =>
    dice.pick([
      [`${wrap} += ${dice.int(20, 100)};`, `${unit} = ${wrap};`],
      [`${wrap} = ${wrap} * ${dice.int(2, 7)};`],
      [`${wrap} <<= ${dice.int(1, 3)};`],
      [`${unit} = ${wrap} - ${dice.int(230, 300)};`],
      [`${unit} = (byte)(${wrap} + ${draft.between(names, 0, 255)}) >> 1;`],
      [`${unit} = ~${wrap};`, `${wrap}--;`],
      [`${unit} = ${letter} - '${dice.pick(["A", "0", " "])}' + ${dice.int(30, 60)};`],
      [`${letter} ^= 0x20;`],
      [`if (${letter} >= 'a' && ${letter} <= 'z') ${unit} = ${letter};`],
    ]),
  );
  draft.globals.push(draft.variable(wrap, U8, true));
}

/** Running averages and integer roots: loops whose bound is worked out. */
function averages(draft: Draft): void {
  const { dice } = draft;
  const root = draft.fresh("root");
  const mean = draft.fresh("mean");
  draft.body.push(
    `uint16_t ${root}(uint16_t value) {`,
    "  uint16_t found = 0;",
    "  while ((uint32_t)(found + 1) * (found + 1) <= value) found++;",
    "  return found;",
    "}",
    `int ${mean}(int a, int b, int weight) { return (a * (8L - weight) + (long)b * weight) / 8; }`,
    "",
  );
  draft.functions.push({ name: root, parameters: [U8], result: U16 });
  draft.statements.push((names) => [
    dice.pick([
      `OCR1A = ${root}(${draft.between(names, 0, 900)}) * ${dice.int(1, 20)};`,
      `OCR1B = ${mean}(${draft.between(names, 0, 1000)}, ${dice.int(-200, 900)}, ${dice.int(1, 7)});`,
    ]),
  ]);
}
