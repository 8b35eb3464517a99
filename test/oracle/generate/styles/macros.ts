/** Macros as people write them: sbi/cbi, pasted register names, do-while(0), conditions of the preprocessor, aliases. */
import type { Draft } from "../draft.js";
import type { Style } from "./styles.js";

export const MACRO_STYLES: readonly Style[] = [
  { percent: 9, write: setAndClear },
  { percent: 8, write: pasted },
  { percent: 8, write: several },
  { percent: 8, write: conditions },
  { percent: 8, write: aliases },
  { percent: 7, write: fields },
  { percent: 6, write: halves },
  { percent: 4, write: gates },
];

function setAndClear(draft: Draft): void {
  const { dice } = draft;
  const [set, clear] = [draft.fresh("sbi"), draft.fresh("cbi")];
  draft.head.push(
    `#ifndef ${clear}`,
    `#define ${clear}(sfr, bit) (_SFR_BYTE(sfr) &= ~_BV(bit))`,
    "#endif",
    `#ifndef ${set}`,
    `#define ${set}(sfr, bit) (_SFR_BYTE(sfr) |= _BV(bit))`,
    "#endif",
  );
  draft.statements.push(() => {
    const { number: n, channels } = dice.pick(draft.timers);
    const { letter, port, bit } = dice.pick(channels);
    return dice.pick([
      [`${set}(TCCR${n}A, COM${n}${letter}1);`],
      [`${clear}(TCCR${n}A, COM${n}${letter}${dice.int(0, 1)});`],
      [`${clear}(TCCR${n}B, CS${n}${dice.int(0, 2)});`, `${set}(TCCR${n}B, CS${n}${dice.int(0, 2)});`],
      [`${set}(DDR${port}, ${bit});`],
      [`${dice.pick([set, clear])}(PORT${port}, ${bit});`],
    ]);
  });
}

/** `TCCR##n##B` and the like. */
function pasted(draft: Draft): void {
  const { dice } = draft;
  const [control, duty, joined, clock] = [
    draft.fresh("CONTROL"),
    draft.fresh("DUTY"),
    draft.fresh("JOIN"),
    draft.fresh("CLOCK"),
  ];
  const timer = dice.pick(draft.timers);
  draft.head.push(
    `#define ${joined}_(a, b) a##b`,
    `#define ${joined}(a, b) ${joined}_(a, b)`,
    `#define ${control}(n, half) TCCR##n##half`,
    `#define ${duty}(n, c) OCR##n##c`,
    `#define ${clock} ${timer.number}`,
  );
  draft.statements.push((names) => {
    const { number: n, channels } = dice.pick(draft.timers);
    const { letter } = dice.pick(channels);
    return dice.pick([
      [`${control}(${n}, B) = (${control}(${n}, B) & 0xF8) | ${dice.int(1, 5)};`],
      [`${duty}(${n}, ${letter}) = ${draft.between(names, 0, 255)};`],
      [`${joined}(OCR${n}, ${letter}) = ${draft.between(names, 0, 255)};`],
      [`${joined}(${joined}(TCCR, ${clock}), A) |= _BV(${joined}(WGM, ${joined}(${clock}, ${dice.int(0, 1)})));`],
      [`${joined}(TCCR, ${n}A) |= 1 << ${joined}(COM${n}${letter}, 1);`],
    ]);
  });
}

/** Several statements in one macro. */
function several(draft: Draft): void {
  const { dice } = draft;
  const name = draft.fresh("SET_LAMP");
  const swap = draft.fresh("PRESCALE");
  const { number: n, channels } = dice.pick(draft.timers);
  const { letter, pin } = dice.pick(channels);
  draft.head.push(
    `#define ${name}(level) do { \\`,
    `    pinMode(${pin}, OUTPUT); \\`,
    `    TCCR${n}A |= _BV(COM${n}${letter}1); \\`,
    `    OCR${n}${letter} = (level); \\`,
    "  } while (0)",
    `#define ${swap}(bits) TCCR${n}B = TCCR${n}B & ~7 | bits`,
  );
  draft.statements.push((names) =>
    dice.pick([
      [`${name}(${draft.between(names, 0, 255)});`],
      [
        `if (${draft.expressions.condition(names, 2).text}) ${name}(${dice.int(0, 99)}); else ${name}(${dice.int(100, 255)});`,
      ],
      [`${swap}(${dice.int(1, 5)});`],
      [`${swap}((${draft.between(names, 0, 5)}));`],
    ]),
  );
}

/** What stands for this board and clock, and what for others. */
function conditions(draft: Draft): void {
  const { dice } = draft;
  const [level, lamp] = [draft.fresh("LEVEL"), draft.fresh("BOARD_LAMP")];
  const value = (): string => String(dice.int(1, 250));
  draft.head.push(
    "#if defined(__AVR_ATmega2560__) || defined(__AVR_ATmega1280__)",
    `#define ${lamp} ${value()}`,
    "#elif defined(__AVR_ATmega328P__) && !defined(__AVR_ATtiny85__)",
    `#define ${lamp} ${value()}`,
    "#else",
    '#error "another board"',
    "#endif",
    dice.pick([`#if F_CPU == 16000000L`, `#if F_CPU >= 8000000UL && ARDUINO >= 100`, `#ifdef OCR${dice.int(1, 4)}C`]),
    `#define ${level} ${value()}`,
    "#else",
    `#define ${level} (${value()} + ${lamp})`,
    "#endif",
    ...(dice.chance(30) ? [`#undef ${lamp}`, `#define ${lamp} (${value()} / 2)`] : []),
  );
  draft.globals.push({
    text: lamp,
    type: { name: "int16_t", bits: 16, signed: true },
    min: 0,
    max: 250,
    level: 16,
    mutable: false,
  });
  draft.statements.push((names) => {
    const { number: n, channels } = dice.pick(draft.timers);
    return [
      `OCR${n}${dice.pick(channels).letter} = ${level} ${dice.pick(["+", "^", "/ 2 +"])} ${draft.between(names, 0, 90)};`,
    ];
  });
}

function aliases(draft: Draft): void {
  const { dice } = draft;
  const { number: n, channels, wide } = dice.pick(draft.timers);
  const { letter, pin } = dice.pick(channels);
  const [duty, control, pinName, on] = [
    draft.fresh("FAN_DUTY"),
    draft.fresh("FAN_CONTROL"),
    draft.fresh("FAN_PIN"),
    draft.fresh("FAN_ON"),
  ];
  draft.head.push(
    `#define ${duty} OCR${n}${letter}`,
    `#define ${control} TCCR${n}B`,
    `#define ${pinName} ${pin}`,
    `#define ${on} ${dice.pick([`${control} |= _BV(CS${n}0)`, `(${control} = ${control} | 0x01)`])}`,
  );
  draft.statements.push((names) =>
    dice.pick([
      [`${duty} = ${draft.between(names, 0, wide ? 1000 : 255)};`],
      [`${control} &= ~(_BV(CS${n}2) | _BV(CS${n}1) | _BV(CS${n}0));`, `${on};`],
      [`pinMode(${pinName}, OUTPUT);`, `analogWrite(${pinName}, ${draft.between(names, 0, 255)});`],
      [`${duty}++;`],
      [`digitalWrite(${pinName}, ${dice.pick(["HIGH", "LOW", `!digitalRead(${pinName})`])});`].map((line) =>
        line.includes("digitalRead") && !draft.inputs ? `digitalWrite(${pinName}, HIGH);` : line,
      ),
    ]),
  );
}

/** Fields of several bits, and bits by conditions. */
function fields(draft: Draft): void {
  const { dice } = draft;
  draft.statements.push((names) => {
    const { number: n, channels, wide } = dice.pick(draft.timers);
    const { letter } = dice.pick(channels);
    const com = `COM${n}${letter}0`;
    const condition = draft.expressions.condition(names, 2).text;
    return dice.pick([
      [`TCCR${n}A = (TCCR${n}A & ~(3 << ${com})) | (${dice.int(0, 3)} << ${com});`],
      [`TCCR${n}A = TCCR${n}A & ~(B11 << ${com}) | ${dice.int(0, 3)} << ${com};`],
      [`bitWrite(TCCR${n}A, COM${n}${letter}1, ${condition});`],
      [`TCCR${n}A |= (${condition}) << COM${n}${letter}1;`],
      [`TCCR${n}B = (${condition} ? _BV(CS${n}1) : 0) | _BV(CS${n}0);`],
      [
        `TCCR${n}A = (${dice.int(1, 3)} << ${com}) | (${dice.int(1, 3)} << WGM${n}0);`,
        ...(wide ? [`TCCR${n}B |= ${dice.int(0, 3)} << WGM${n}2;`] : []),
      ],
      [`TCCR${n}B ^= (TCCR${n}B ^ ${dice.int(1, 5)}) & 7;`],
      [`bitClear(TCCR${n}A, ${com});`, `bitSet(TCCR${n}A, ${dice.int(4, 7)});`],
    ]);
  });
}

/** High and low bytes apart, in the right order and in the wrong one. */
function halves(draft: Draft): void {
  const { dice } = draft;
  draft.statements.push((names) => {
    const register = dice.pick(["OCR1A", "OCR1B", "ICR1"]);
    const value = draft.between(names, 0, 2000);
    return dice.pick([
      [`${register}H = ${dice.int(0, 7)};`, `${register}L = ${draft.between(names, 0, 255)};`],
      [`${register}L = ${dice.int(0, 255)};`, `${register}H = ${dice.int(0, 7)};`],
      draft.braced([`word whole = ${value};`, `${register}H = highByte(whole);`, `${register}L = lowByte(whole);`]),
      [`${register}H = (${value}) >> 8;`, `${register}L = (${value}) & 0xFF;`],
      [`${register} = word(${dice.int(0, 3)}, ${draft.between(names, 0, 255)});`],
      [`${register} = ${register}H << 8 | ${dice.int(0, 255)};`],
    ]);
  });
}

/** Power reduction, the prescalers' hold, masks of interrupts, stopping and starting. */
function gates(draft: Draft): void {
  const { dice } = draft;
  draft.statements.push(() => {
    const { number: n } = dice.pick(draft.timers.filter(({ number }) => number === 1 || number === 2));
    return dice.pick([
      [`GTCCR = _BV(TSM) | _BV(PSRSYNC);`, `TCNT${n} = 0;`, "GTCCR = 0;"],
      [`byte kept = TCCR${n}B;`, `TCCR${n}B = 0;`, `TCNT${n} = 0;`, `TCCR${n}B = kept;`].map((line, index) =>
        index === 0 ? `{ ${line}` : index === 3 ? `${line} }` : line,
      ),
      ["noInterrupts();", `OCR1A = ${dice.int(0, 900)};`, "interrupts();"],
      ["uint8_t oldSREG = SREG;", "cli();", `OCR1B = ${dice.int(0, 900)};`, "SREG = oldSREG;"].map((line, index) =>
        index === 0 ? `{ ${line}` : index === 3 ? `${line} }` : line,
      ),
    ]);
  });
}
