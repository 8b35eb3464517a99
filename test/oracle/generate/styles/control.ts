/** Function tables, lambdas, falling through, goto, recursion, static locals, PROGMEM tables and ramps. */
import type { Draft } from "../draft.js";
import { I16, U8 } from "../types.js";
import type { Style } from "./styles.js";

export const CONTROL_STYLES: readonly Style[] = [
  { percent: 8, write: functionTable },
  { percent: 7, write: lambdas },
  { percent: 7, write: fallingThrough },
  { percent: 7, write: jumps },
  { percent: 5, write: recursion },
  { percent: 9, write: staticLocals },
  { percent: 9, write: programMemory },
  { percent: 7, write: ramp },
  { percent: 6, write: searches },
  { percent: 6, write: defaults },
  { percent: 5, write: grids },
];

function functionTable(draft: Draft): void {
  const { dice } = draft;
  const names = [draft.fresh("low"), draft.fresh("mid"), draft.fresh("high")];
  const table = draft.fresh("actions");
  const units = names.map(() => dice.pick(["OCR2A", "OCR2B", "OCR0A", "OCR0B", "OCR1A"]));
  const type = draft.fresh("Action");
  draft.head.push(dice.pick([`typedef void (*${type})(uint8_t);`, `using ${type} = void (*)(uint8_t);`]));
  draft.body.push(
    ...names.map(
      (name, index) =>
        `void ${name}(uint8_t level) { ${units[index]} = level / ${dice.int(1, 4)} + ${dice.int(0, 60)}; }`,
    ),
    dice.pick([
      `${type} ${table}[] = { ${names.join(", ")} };`,
      `void (*const ${table}[3])(uint8_t) = { &${names[0]}, ${names[1]}, ${names[2]} };`,
    ]),
    `void each${table}(${type} what, byte times) { while (times--) what(times * 9); }`,
    "",
  );
  draft.statements.push((seen) =>
    dice.pick([
      [`${table}[${draft.between(seen, 0, 2)}](${draft.between(seen, 0, 255)});`],
      [`(*${table}[${dice.int(0, 2)}])(${dice.int(0, 255)});`],
      [`for (byte k = 0; k < 3; k++) ${table}[k](k * ${dice.int(5, 60)});`],
      [`each${table}(${dice.pick(names)}, ${dice.int(1, 5)});`],
      [
        `{ ${type} what = ${draft.expressions.condition(seen, 2).text} ? ${names[0]} : ${names[2]}; what(${dice.int(0, 255)}); }`,
      ],
    ]),
  );
}

function lambdas(draft: Draft): void {
  const { dice } = draft;
  const unit = dice.pick(["OCR2A", "OCR2B", "OCR0B", "OCR1A", "OCR1B"]);
  const set = draft.fresh("setLamp");
  const over = draft.fresh("over");
  draft.body.push(
    `auto ${set} = [](uint8_t level) { ${unit} = level; };`,
    `template <typename F> void ${over}(byte count, F act) { for (byte k = 0; k < count; k++) act(k); }`,
    "",
  );
  draft.statements.push((names) => {
    const gain = draft.fresh("gain");
    return dice.pick([
      [`${set}(${draft.between(names, 0, 255)});`],
      draft.braced([
        `int ${gain} = ${draft.between(names, 0, 60)};`,
        `auto scaled = [${dice.pick(["=", gain])}](int by) -> int { return ${gain} * by; };`,
        `${unit} = scaled(${dice.int(0, 4)}) + ${dice.int(0, 9)};`,
      ]),
      draft.braced([
        `byte ${gain} = ${dice.int(0, 9)};`,
        `auto more = [&] { ${gain} += ${dice.int(1, 20)}; };`,
        "more();",
        ...(dice.chance(50) ? ["more();"] : []),
        `${unit} = ${gain};`,
      ]),
      [`${over}(${dice.int(1, 5)}, [](byte k) { ${unit} = k * ${dice.int(1, 50)}; });`],
      draft.braced([
        `uint16_t total = 0;`,
        `${over}(4, [&total](byte k) { total += k + ${dice.int(0, 30)}; });`,
        `OCR1A = total;`,
      ]),
    ]);
  });
}

/** Cases without break, several labels, default in the middle. */
function fallingThrough(draft: Draft): void {
  const { dice } = draft;
  const name = draft.fresh("step");
  const unit = dice.pick(["OCR2A", "OCR2B", "OCR0B", "OCR1A"]);
  draft.body.push(
    `byte ${name}(int command) {`,
    `  byte found = ${dice.int(0, 9)};`,
    "  switch (command) {",
    `    case 0:`,
    `    case ${dice.int(5, 9)}: found += ${dice.int(1, 40)};`,
    `    case 1: found ^= ${dice.int(1, 99)}; break;`,
    ...(dice.chance(60) ? [`    default: ${unit} = found; ${dice.pick(["break;", ""])}`] : []),
    `    case 2: ${dice.pick(["return found;", `${unit} = command * 20;`, "{ byte own = found; found = own + 3; }"])}`,
    `    case 3: found++; break;`,
    `    case ${dice.int(10, 12)} ... ${dice.int(13, 20)}: found = command; break;`,
    `    case -1: found = 0;`,
    "  }",
    "  return found;",
    "}",
    "",
  );
  draft.functions.push({ name, parameters: [I16], result: U8 });
  draft.statements.push((names) => [
    dice.pick([
      `OCR1B = ${name}(${draft.between(names, 0, 14)}) * 2;`,
      `for (int k = -1; k < ${dice.int(1, 5)}; k++) ${unit} = ${name}(k);`,
      `${name}(${dice.int(-2, 14)});`,
    ]),
  ]);
}

function jumps(draft: Draft): void {
  const { dice } = draft;
  draft.statements.push((names) => {
    const [again, out, tries] = [draft.fresh("again"), draft.fresh("out"), draft.fresh("tries")];
    const unit = dice.pick(["OCR2A", "OCR2B", "OCR0B", "OCR1A"]);
    return dice.pick([
      draft.braced([
        `byte ${tries} = 0;`,
        `${again}:`,
        `${tries} += ${dice.int(1, 3)};`,
        `${unit} = ${tries} * ${dice.int(1, 20)};`,
        `if (${tries} < ${dice.int(2, 9)}) goto ${again};`,
      ]),
      draft.braced([
        `for (byte k = 0; k < 4; k++)`,
        `  for (byte m = 0; m < 3; m++) {`,
        `    if (k * m == ${dice.int(0, 7)}) goto ${out};`,
        `    ${unit} = k + m * 10;`,
        "  }",
        `${unit} = ${draft.between(names, 0, 255)};`,
        `${out}:;`,
      ]),
      draft.braced([
        `int left = ${draft.between(names, 0, 20)};`,
        `while (left > 0) {`,
        `  if (left == ${dice.int(3, 12)}) { left -= 3; continue; }`,
        `  if (left == ${dice.int(1, 5)}) break;`,
        "  left--;",
        "}",
        `${unit} = left;`,
      ]),
    ]);
  });
}

function recursion(draft: Draft): void {
  const { dice } = draft;
  const name = draft.fresh("steps");
  draft.body.push(
    `unsigned int ${name}(unsigned int n) { return n < 2 ? n + ${dice.int(0, 5)} : ${name}(n - 1) + ${dice.pick([`${name}(n - 2)`, "n", "n * n"])}; }`,
    "",
  );
  draft.statements.push((names) => [
    `OCR1${dice.pick(["A", "B"])} = ${name}(${dice.chance(60) ? dice.int(1, 7) : draft.between(names, 0, 6)});`,
  ]);
}

function staticLocals(draft: Draft): void {
  const { dice } = draft;
  const name = draft.fresh("next");
  const { number: n, channels, wide } = dice.pick(draft.timers);
  const unit = `OCR${n}${dice.pick(channels).letter}`;
  const size = dice.int(2, 5);
  const values = Array.from({ length: size }, () => dice.int(0, wide ? 1023 : 255));
  draft.body.push(
    `void ${name}() {`,
    `  static ${dice.pick(["byte", "uint8_t", "int"])} at = ${dice.int(0, size - 1)};`,
    `  static const ${wide ? "uint16_t" : "byte"} rows[] = { ${values.join(", ")} };`,
    `  ${unit} = rows[at];`,
    dice.pick([`  at = (at + 1) % ${size};`, `  if (++at >= ${size}) at = 0;`, `  at++; if (at == ${size}) at = 0;`]),
    "}",
    "",
  );
  draft.actions.push({ name, parameters: [] });
  draft.statements.push(() => [`${name}();`]);
  if (dice.chance(40)) draft.turn.push(`${name}();`);
}

function programMemory(draft: Draft): void {
  const { dice } = draft;
  const name = draft.fresh("GAMMA");
  const wide = dice.chance(45);
  const size = dice.pick([4, 8, 5, 10]);
  const values = Array.from({ length: size }, () => dice.int(0, wide ? 2000 : 255));
  draft.head.push(
    dice.pick([
      `const ${wide ? "uint16_t" : "uint8_t"} ${name}[] PROGMEM = { ${values.join(", ")} };`,
      `static const ${wide ? "unsigned int" : "byte"} PROGMEM ${name}[${size}] = { ${values.join(", ")} };`,
      `const PROGMEM ${wide ? "uint16_t" : "uint8_t"} ${name}[${size}] = { ${values.join(", ")} };`,
    ]),
  );
  const read = (index: string): string => {
    const address = dice.pick([`&${name}[${index}]`, `${name} + (${index})`, `&(${name}[${index}])`]);
    return wide ? `pgm_read_word(${address})` : `pgm_read_byte${dice.pick(["", "", "_near"])}(${address})`;
  };
  const unit = wide ? dice.pick(["OCR1A", "OCR1B", "ICR1"]) : dice.pick(["OCR2A", "OCR2B", "OCR0B", "OCR1B"]);
  draft.statements.push((names) =>
    dice.pick([
      [`${unit} = ${read(draft.between(names, 0, size - 1))};`],
      [`for (byte k = 0; k < ${size}; k++) ${unit} = ${read("k")};`],
      [
        `{ unsigned int sum = 0; for (byte k = 0; k < ${size}; k += 2) sum += ${read("k")}; OCR1B = sum / ${dice.int(1, 6)}; }`,
      ],
      [`if (${read(String(dice.int(0, size - 1)))} > ${dice.int(1, 200)}) ${unit} = ${dice.int(0, 255)};`],
    ]),
  );
}

/** Up and down by a step that turns at the ends. */
function ramp(draft: Draft): void {
  const { dice } = draft;
  const [level, by] = [draft.fresh("glow"), draft.fresh("by")];
  const { pin } = dice.pick(dice.pick(draft.timers).channels);
  const step = dice.pick([1, 5, 15, 17, 51]);
  draft.head.push(`int ${level} = ${dice.pick([0, 5, 30])};`, `int ${by} = ${step};`);
  const turn = [
    `analogWrite(${pin}, ${level});`,
    `${level} ${dice.pick([`= ${level} + ${by}`, `+= ${by}`])};`,
    dice.pick([
      `if (${level} <= 0 || ${level} >= 255) ${by} = -${by};`,
      `if (${level} > ${255 - step} || ${level} < ${step}) ${by} *= -1;`,
    ]),
  ];
  draft.turn.push(...turn, `delay(${dice.int(1, 5)});`);
  if (dice.chance(30)) {
    draft.statements.push(() => [
      `for (int fade = 0; fade <= 255; fade += ${dice.pick([5, 15, 51, 60])}) { analogWrite(${pin}, fade); delay(1); }`,
    ]);
  }
}

/** Loops that look for something: prescalers that fit, the first entry above a level. */
function searches(draft: Draft): void {
  const { dice } = draft;
  const name = draft.fresh("fitting");
  const { number: n } = dice.pick(draft.timers.filter(({ wide }) => wide));
  draft.body.push(
    `byte ${name}(unsigned long hz, uint16_t &top) {`,
    "  static const uint16_t divisors[] = { 1, 8, 64, 256, 1024 };",
    "  for (byte k = 0; k < 5; k++) {",
    "    unsigned long counts = F_CPU / divisors[k] / hz;",
    `    if (counts <= ${dice.pick(["65536UL", "0xFFFF", "40000"])}) { top = counts - 1; return k + 1; }`,
    "  }",
    "  top = 65535;",
    "  return 5;",
    "}",
    "",
  );
  draft.statements.push((names) =>
    draft.braced([
      "uint16_t top;",
      `TCCR${n}B = (TCCR${n}B & 0xF8) | ${name}(${dice.pick([String(dice.int(1, 20000)), draft.between(names, 1, 4000)])}, top);`,
      `${dice.pick([`ICR${n}`, `OCR${n}A`])} = top;`,
      `OCR${n}B = top / ${dice.int(2, 5)};`,
    ]),
  );
}

/** Default arguments and overloads. */
function defaults(draft: Draft): void {
  const { dice } = draft;
  const name = draft.fresh("level");
  const units = [dice.pick(["OCR2A", "OCR0B"]), dice.pick(["OCR2B", "OCR1A"])];
  draft.body.push(
    `inline void ${name}(uint8_t a, uint8_t b = ${dice.int(0, 99)}) { ${units[0]} = a + b; }`,
    `inline void ${name}(long value) { ${units[1]} = value % ${dice.int(90, 250)}; }`,
    `inline void ${name}(float value) { ${units[1]} = value * ${dice.int(1, 9)}; }`,
    "",
  );
  draft.statements.push((names) =>
    dice.pick([
      [`${name}((uint8_t)(${draft.between(names, 0, 255)}));`],
      [`${name}((byte)${dice.int(0, 99)}, ${dice.int(0, 99)});`],
      [`${name}(${dice.int(0, 9999)}L);`],
      [`${name}(${dice.pick(["1.5f", "9.99f", "0.2f"])});`],
    ]),
  );
}

/** Tables of two dimensions. */
function grids(draft: Draft): void {
  const { dice } = draft;
  const name = draft.fresh("grid");
  const row = (): string => `{ ${[0, 1, 2].map(() => dice.int(0, 255)).join(", ")} }`;
  draft.head.push(`${dice.pick(["const ", ""])}byte ${name}[2][3] = { ${row()}, ${row()} };`);
  draft.statements.push((names) =>
    dice.pick([
      [`OCR2B = ${name}[${draft.between(names, 0, 1)}][${draft.between(names, 0, 2)}];`],
      [
        `for (byte r = 0; r < 2; r++) for (byte c = 0; c < 3; c++) if (${name}[r][c] > ${dice.int(50, 200)}) OCR2A = ${name}[r][c];`,
      ],
      [`{ const byte *line = ${name}[${dice.int(0, 1)}]; OCR0B = line[${dice.int(0, 2)}] + *line; }`],
      [`OCR1A = sizeof(${name}) * ${name}[1][${dice.int(0, 2)}];`],
    ]),
  );
}
