/** Registers and tables through pointers, references and addresses; arrays of structures; texts. */
import type { Draft } from "../draft.js";
import { U8, U16 } from "../types.js";
import type { Style } from "./styles.js";

export const POINTER_STYLES: readonly Style[] = [
  { percent: 9, write: registerBlock },
  { percent: 8, write: registerTable },
  { percent: 6, write: reference },
  { percent: 5, write: bareAddress },
  { percent: 8, write: channelRows },
  { percent: 7, write: outParameters },
  { percent: 6, write: tableWalk },
  { percent: 5, write: memory },
  { percent: 4, write: text },
];

/** `volatile uint8_t *block = &TCCR2A; block[1] = …; *(block + 3) = …;` */
function registerBlock(draft: Draft): void {
  const { dice } = draft;
  const timer = dice.pick(draft.timers.filter(({ channels }) => channels.some(({ letter }) => letter === "A")));
  const n = timer.number;
  const block = draft.fresh("block");
  const type = dice.pick(["volatile uint8_t *", "volatile byte *", "volatile unsigned char *const "]);
  const constant = type.endsWith("const ");
  draft.head.push(`${type}${block} = &TCCR${n}A;`);
  draft.statements.push((names) => {
    const control = draft.between(names, 0, 255);
    const clock = dice.int(1, 5);
    if (timer.wide) {
      const compare = draft.fresh("compare");
      return draft.braced([
        `volatile uint16_t *${compare} = &OCR${n}A;`,
        dice.pick([
          `*${compare}++ = ${draft.between(names, 0, 1023)};`,
          `${compare}[1] = ${draft.between(names, 0, 1023)};`,
        ]),
        `*${compare} ${dice.pick(["=", "+=", "|="])} ${draft.between(names, 0, 300)};`,
        `*(volatile uint8_t *)(${block} + 1) = ${clock};`,
      ]);
    }
    return dice.pick([
      [`*${block} = ${control};`],
      [`${block}[1] = ${clock};`],
      [`*(${block} + 3) = ${draft.between(names, 0, 255)};`],
      [`${block}[${dice.int(3, 4)}] ${dice.pick(["+=", "-=", "^="])} ${draft.between(names, 0, 200)};`],
      constant
        ? [`*(1 + ${block}) |= ${clock};`]
        : draft.braced([`${block} += 3;`, `*${block} = ${draft.between(names, 0, 255)};`, `${block} -= 3;`]),
      draft.braced([
        `volatile uint8_t *walk = ${block};`,
        `*walk++ = ${control};`,
        `*walk++ = ${clock};`,
        `walk++;`,
        `*walk = ${draft.between(names, 0, 255)};`,
      ]),
    ]);
  });
}

/** A table of duty registers, walked by a loop or by index. */
function registerTable(draft: Draft): void {
  const { dice } = draft;
  const narrow = draft.timers
    .filter(({ wide }) => !wide)
    .flatMap(({ number: n, channels }) => channels.map(({ letter }) => `OCR${n}${letter}`));
  const name = draft.fresh("duties");
  draft.head.push(`volatile uint8_t *const ${name}[] = { ${narrow.map((one) => `&${one}`).join(", ")} };`);
  const count = narrow.length;
  draft.statements.push((names) =>
    dice.pick([
      [`*${name}[${draft.between(names, 0, count - 1)}] = ${draft.between(names, 0, 255)};`],
      [`for (byte k = 0; k < ${count}; k++) *${name}[k] = ${draft.between(names, 0, 100)} + k * ${dice.int(1, 30)};`],
      [`*${name}[${dice.int(0, count - 1)}] ${dice.pick(["|=", "+=", "="])} ${draft.between(names, 0, 255)};`],
      [
        `for (size_t k = 0; k < sizeof(${name}) / sizeof(${name}[0]); ++k) { if (k & 1) *${name}[k] = ${draft.between(names, 0, 255)}; }`,
      ],
    ]),
  );
}

function reference(draft: Draft): void {
  const { dice } = draft;
  const { number: n, wide, channels } = dice.pick(draft.timers);
  const { letter } = dice.pick(channels);
  const name = draft.fresh("duty");
  draft.head.push(`volatile ${wide ? "uint16_t" : "uint8_t"} &${name} = OCR${n}${letter};`);
  draft.statements.push((names) => [
    `${name} ${dice.pick(["=", "=", "+=", "^="])} ${draft.between(names, 0, wide ? 1000 : 255)};`,
  ]);
}

/** `*(volatile uint8_t *)0x81 = …`: addresses of timers 0 to 2 as in the data sheet's register summary. */
function bareAddress(draft: Draft): void {
  const { dice } = draft;
  const name = draft.fresh("DUTY");
  const [address, wide] = dice.pick([
    ["0xB3", false],
    ["0xB4", false],
    ["0x47", false],
    ["0x48", false],
    ["0x88", true],
    ["0x8A", true],
    ["0xB0", false],
  ] as const);
  const type = wide ? "uint16_t" : "uint8_t";
  const forms = [
    `#define ${name} (*(volatile ${type} *)${address})`,
    `#define ${name} (*reinterpret_cast<volatile ${type} *>(${address}))`,
    `#define ${name} ${wide ? "_SFR_MEM16" : "_SFR_MEM8"}(${address})`,
  ];
  draft.head.push(dice.pick(forms));
  draft.statements.push((names) => [`${name} = ${draft.between(names, 0, 255)};`]);
}

/** An array of structures: pin, register, start value; walked by index, by reference or by pointer. */
function channelRows(draft: Draft): void {
  const { dice } = draft;
  const type = draft.fresh("Row");
  const rows = draft.fresh("rows");
  const narrow = draft.timers
    .filter(({ wide }) => !wide)
    .flatMap(({ number: n, channels }) => channels.map(({ letter, pin }) => ({ unit: `OCR${n}${letter}`, pin })));
  const chosen = dice.some(narrow, 2);
  draft.head.push(
    `struct ${type} { volatile uint8_t *unit; uint8_t pin; int level; };`,
    `${type} ${rows}[] = {`,
    ...chosen.map(({ unit, pin }) => `  { &${unit}, ${pin}, ${dice.int(0, 255)} },`),
    "};",
  );
  const at = dice.int(0, chosen.length - 1);
  draft.statements.push((names) =>
    dice.pick([
      [`for (auto &row : ${rows}) *row.unit = row.level;`],
      [
        `for (${type} &row : ${rows}) { row.level = ${draft.between(names, 0, 255)}; analogWrite(row.pin, row.level); }`,
      ],
      [`for (${type} *row = ${rows}; row < ${rows} + ${chosen.length}; row++) pinMode(row->pin, OUTPUT);`],
      [
        `for (byte k = 0; k < ${chosen.length}; k++) { ${type} copy = ${rows}[k]; copy.level += k; *copy.unit = copy.level; }`,
      ],
      [`${rows}[${at}].level = ${draft.between(names, 0, 255)};`, `*${rows}[${at}].unit = (&${rows}[${at}])->level;`],
    ]),
  );
}

/** Results through pointers and references. */
function outParameters(draft: Draft): void {
  const { dice } = draft;
  const split = draft.fresh("split");
  const cut = draft.fresh("cut");
  draft.body.push(
    `void ${split}(uint16_t value, byte *high, byte &low) { *high = value >> 8; low = value & 0xFF; }`,
    `static bool ${cut}(int *value, int most) {`,
    `  if (*value <= most) return false;`,
    `  *value = most;`,
    "  return true;",
    "}",
    "",
  );
  draft.statements.push((names) => {
    const channel = dice.pick(
      draft.timers.flatMap(({ number: n, wide, channels }) => (wide ? [] : [`${n}${channels[0]!.letter}`])),
    );
    return dice.pick([
      draft.braced([
        "byte high, low;",
        `${split}(${draft.between(names, 0, 1023)}, &high, low);`,
        `OCR${channel} = high * ${dice.int(1, 60)} + low / 2;`,
      ]),
      draft.braced([
        `int level = ${draft.between(names, 0, 999)};`,
        `if (${cut}(&level, ${dice.int(20, 255)})) OCR${channel} = level; else OCR${channel} = level / 2;`,
      ]),
    ]);
  });
}

/** Pointers into a table: differences, steps, comparisons. */
function tableWalk(draft: Draft): void {
  const { dice } = draft;
  const name = draft.fresh("steps");
  const size = dice.int(3, 9);
  const wide = dice.chance(40);
  const values = Array.from({ length: size }, () => dice.int(1, wide ? 900 : 250));
  const type = wide ? "uint16_t" : "byte";
  draft.head.push(`${type} ${name}[${size}] = { ${values.join(", ")} };`);
  const sum = draft.fresh("sum");
  draft.body.push(
    `uint16_t ${sum}(const ${type} *from, const ${type} *to) {`,
    "  uint16_t total = 0;",
    dice.pick(["  while (from != to) total += *from++;", "  for (; from < to; ++from) total += *from;"]),
    "  return total + (to - from);",
    "}",
    "",
  );
  draft.statements.push((names) => {
    const register = `OCR1${dice.pick(["A", "B"])}`;
    return dice.pick([
      [`${register} = ${sum}(${name}, ${name} + ${draft.between(names, 0, size)});`],
      [`${register} = ${sum}(&${name}[${dice.int(0, 1)}], &${name}[${size - 1}]);`],
      [
        `{ ${type} *p = ${name} + ${size - 1}; *p-- = ${draft.between(names, 0, 200)}; ${register} = *p + p[1] + (p - ${name}); }`,
      ],
      [`for (${type} *p = ${name}; p != ${name} + ${size}; p++) *p ^= ${dice.int(1, 60)};`],
      [`${register} = *(${name} + (${draft.between(names, 0, size - 1)}));`],
    ]);
  });
  if (!wide) draft.tables.push({ name, size: 2, element: U8 });
}

/** memcpy, memset and copies of whole structures. */
function memory(draft: Draft): void {
  const { dice } = draft;
  const type = draft.fresh("Frame");
  const [now, next] = [draft.fresh("now"), draft.fresh("next")];
  draft.head.push(
    `struct ${type} { uint8_t duty[4]; uint16_t top; };`,
    `${type} ${now} = { { ${[1, 2, 3, 4].map((n) => n * dice.int(1, 50)).join(", ")} }, ${dice.int(50, 2000)} };`,
    `${type} ${next};`,
  );
  draft.statements.push((names) => {
    const index = dice.int(0, 3);
    return dice.pick([
      [`memset(${next}.duty, ${dice.int(0, 255)}, sizeof(${next}.duty));`],
      [`memcpy(&${next}, &${now}, sizeof(${type}));`],
      [`${next} = ${now};`, `${next}.duty[${index}] = ${draft.between(names, 0, 255)};`],
      [`${now} = ${next};`],
      [`OCR1A = ${now}.top;`, `OCR1B = ${next}.duty[${draft.between(names, 0, 3)}];`],
      [`{ ${type} copy = ${now}; copy.top >>= 1; OCR1B = copy.top; }`],
      [`ICR1 = ${next}.top + ${dice.int(1, 900)};`],
    ]);
  });
  draft.globals.push(draft.variable(`${now}.top`, U16, true));
}

/** Commands in a text, read letter by letter. */
function text(draft: Draft): void {
  const { dice } = draft;
  const name = draft.fresh("run");
  const letters = Array.from({ length: dice.int(2, 6) }, () => dice.pick(["a", "b", "+", "0", "9"])).join("");
  const unit = dice.pick(["OCR2B", "OCR0B", "OCR2A"]);
  draft.body.push(
    `void ${name}(const char *command) {`,
    "  int level = 0;",
    "  for (; *command; command++) {",
    "    switch (*command) {",
    "      case 'a': level += 40; break;",
    "      case '+': level++; break;",
    "      case 'b': level <<= 1; level &= 0x3ff; break;",
    "      default: level += *command - '0';",
    "    }",
    "  }",
    `  ${unit} = level;`,
    "}",
    "",
  );
  const stored = draft.fresh("letters");
  draft.head.push(`char ${stored}[] = "${letters}";`);
  draft.statements.push(() =>
    dice.pick([
      [`${name}("${letters}");`],
      [`${name}(${stored});`],
      [`${name}(${stored} + 1);`],
      [`OCR1A = strlen(${stored}) * ${dice.int(1, 90)};`],
    ]),
  );
}
