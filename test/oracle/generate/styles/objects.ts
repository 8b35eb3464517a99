/** Classes with constructors, inheritance and virtual methods; templates; unions and bit fields; namespaces, operators. */
import type { Draft } from "../draft.js";
import { I16, U8, U16 } from "../types.js";
import type { Style } from "./styles.js";

export const OBJECT_STYLES: readonly Style[] = [
  { percent: 9, write: constructed },
  { percent: 8, write: virtualMethods },
  { percent: 7, write: functionTemplate },
  { percent: 7, write: timerTemplate },
  { percent: 7, write: unionOfHalves },
  { percent: 7, write: bitFields },
  { percent: 5, write: operators },
  { percent: 6, write: namespaces },
  { percent: 4, write: scopeGuard },
  { percent: 5, write: staticMembers },
];

/** A class whose constructor writes registers: before the core's init where the object is global. */
function constructed(draft: Draft): void {
  const { dice } = draft;
  const type = draft.fresh("Fan");
  const object = draft.fresh("fan");
  const timer = dice.pick(draft.timers);
  const n = timer.number;
  const { letter, pin } = dice.pick(timer.channels);
  const early = dice.chance(40)
    ? [`TCCR${n}A |= _BV(COM${n}${letter}1);`, dice.pick([`OCR${n}${letter} = level;`, ""])].filter(
        (line) => line !== "",
      )
    : [];
  draft.body.push(
    `class ${type} {`,
    "public:",
    `  ${dice.pick(["explicit ", ""])}${type}(byte level, int8_t step = ${dice.int(-9, 9)}) : level(level), step(step) { ${early.join(" ")} }`,
    `  void begin() { pinMode(${pin}, OUTPUT); TCCR${n}A |= (1 << COM${n}${letter}1); apply(); }`,
    `  void move() { level += step; apply(); }`,
    `  byte now() const { return level; }`,
    "protected:",
    `  void apply() { this->level ${dice.pick(["&= 0xFF", "|= 1", "^= 0"])}; OCR${n}${letter} = level; }`,
    "  byte level;",
    "private:",
    "  const int8_t step;",
    "};",
    dice.pick([
      `${type} ${object}(${dice.int(0, 255)});`,
      `static ${type} ${object} = ${type}(${dice.int(0, 255)}, ${dice.int(-5, 5)});`,
    ]),
    "",
  );
  draft.actions.push({ name: `${object}.begin`, parameters: [] }, { name: `${object}.move`, parameters: [] });
  draft.statements.push((names) =>
    dice.pick([
      [`${object}.begin();`],
      [`${object}.move();`],
      [`OCR1A = ${object}.now() + ${draft.between(names, 0, 200)};`],
      [`{ ${type} own(${draft.between(names, 0, 255)}, ${dice.int(-3, 3)}); own.move(); }`],
      [`{ ${type} *which = &${object}; which->move(); }`],
    ]),
  );
}

/** An abstract base, two kinds of output, and a table of pointers to them. */
function virtualMethods(draft: Draft): void {
  const { dice } = draft;
  const [base, one, two] = [draft.fresh("Output"), draft.fresh("Lamp"), draft.fresh("Pump")];
  const [a, b, all] = [draft.fresh("lamp"), draft.fresh("pump"), draft.fresh("outputs")];
  const channels = draft.timers.flatMap(({ number: n, wide, channels }) =>
    wide
      ? []
      : channels.map(({ letter, pin }) => ({
          unit: `OCR${n}${letter}`,
          pin,
          bit: `COM${n}${letter}1`,
          control: `TCCR${n}A`,
        })),
  );
  const [first, second] = [dice.pick(channels), dice.pick(channels)];
  draft.body.push(
    `class ${base} {`,
    "public:",
    `  virtual void set(uint8_t level) = 0;`,
    `  virtual uint8_t most() { return ${dice.int(100, 255)}; }`,
    "  void full() { set(most()); }",
    "};",
    `class ${one} : public ${base} {`,
    "public:",
    `  void set(uint8_t level) ${dice.pick(["override ", ""])}{ ${first.control} |= _BV(${first.bit}); ${first.unit} = level; }`,
    "};",
    `class ${two} : public ${base} {`,
    "  int offset;",
    "public:",
    `  ${two}(int offset) : offset(offset) {}`,
    `  void set(uint8_t level) { analogWrite(${second.pin}, (level + offset) & 0xFF); }`,
    `  ${dice.pick(["virtual ", ""])}uint8_t most() { return ${base}::most() / 2; }`,
    "};",
    `${one} ${a};`,
    `${two} ${b}(${dice.int(-20, 20)});`,
    `${base} *${all}[] = { &${a}, &${b} };`,
    "",
  );
  draft.statements.push((names) =>
    dice.pick([
      [`${all}[${draft.between(names, 0, 1)}]->set(${draft.between(names, 0, 255)});`],
      [`for (${base} *output : ${all}) output->full();`],
      [`for (byte k = 0; k < 2; k++) ${all}[k]->set(k * ${dice.int(1, 120)} + 3);`],
      [`${a}.full();`],
      [`{ ${base} &output = ${dice.pick([a, b])}; output.full(); }`],
    ]),
  );
}

function functionTemplate(draft: Draft): void {
  const { dice } = draft;
  const clip = draft.fresh("clip");
  const drive = draft.fresh("drive");
  const { pin } = dice.pick(dice.pick(draft.timers).channels);
  draft.body.push(
    `template <typename T> T ${clip}(T value, T low, T high) { return value < low ? low : (value > high ? high : value); }`,
    `template <uint8_t Pin, ${dice.pick(["int", "byte"])} Offset = ${dice.int(0, 40)}> void ${drive}(int level) {`,
    "  pinMode(Pin, OUTPUT);",
    `  analogWrite(Pin, ${clip}(level + Offset, ${dice.int(0, 20)}, ${dice.int(100, 255)}));`,
    "}",
    "",
  );
  draft.statements.push((names) =>
    dice.pick([
      [`${drive}<${pin}>(${draft.between(names, 0, 300)});`],
      [`${drive}<${pin}, ${dice.int(0, 30)}>(${draft.between(names, 0, 300)});`],
      [`OCR1A = ${clip}<long>(${draft.between(names, 0, 1023)}, ${dice.int(0, 50)}, ${dice.int(60, 900)});`],
      [`OCR1B = ${clip}<uint8_t>(${draft.between(names, 0, 999)}, 10, ${dice.int(60, 255)});`],
    ]),
  );
}

/** One class per timer out of a template over its number. */
function timerTemplate(draft: Draft): void {
  const { dice } = draft;
  const name = draft.fresh("Clock");
  const two = draft.timers.filter(({ number }) => number < 3).slice(0, 3);
  draft.body.push(
    `template <int N> struct ${name};`,
    ...two.flatMap(({ number: n }) => [
      `template <> struct ${name}<${n}> {`,
      `  static volatile uint8_t &control() { return TCCR${n}B; }`,
      `  static void prescale(byte bits) { TCCR${n}B = (TCCR${n}B & ~7) | (bits & 7); }`,
      `  static const int channels = ${dice.int(1, 3)};`,
      "};",
    ]),
    "",
  );
  draft.statements.push((names) => {
    const { number: n } = dice.pick(two);
    return dice.pick([
      [`${name}<${n}>::prescale(${dice.int(1, 5)});`],
      [`${name}<${n}>::control() |= ${dice.int(1, 3)};`],
      [`OCR1B = ${name}<${n}>::channels * ${draft.between(names, 0, 300)};`],
    ]);
  });
}

function unionOfHalves(draft: Draft): void {
  const { dice } = draft;
  const type = draft.fresh("Split");
  const name = draft.fresh("split");
  draft.head.push(
    `union ${type} { uint16_t whole; ${dice.pick(["struct { uint8_t low; uint8_t high; } half", "struct { uint8_t low, high; } half"])}; uint8_t bytes[2]; };`,
    `${type} ${name};`,
  );
  draft.statements.push((names) =>
    dice.pick([
      [
        `${name}.whole = ${draft.between(names, 0, 2000)};`,
        `OCR1AH = ${name}.half.high;`,
        `OCR1AL = ${name}.half.low;`,
      ],
      [`${name}.half.high = ${draft.between(names, 0, 3)};`, `OCR1B = ${name}.whole;`],
      [`${name}.bytes[${dice.int(0, 1)}] = ${draft.between(names, 0, 255)};`],
      [`OCR2B = ${name}.bytes[0] ${dice.pick(["+", "^", "-"])} ${name}.half.high;`],
      [`ICR1 = ${name}.whole ${dice.pick(["| 64", ">> 1", "+ 100"])};`],
    ]),
  );
  draft.globals.push(draft.variable(`${name}.whole`, U16, true));
}

/** A control register as bit fields over a byte. */
function bitFields(draft: Draft): void {
  const { dice } = draft;
  const type = draft.fresh("Control");
  const name = draft.fresh("control");
  const { number: n } = dice.pick(draft.timers);
  draft.head.push(
    `union ${type} {`,
    "  struct { uint8_t wave : 2; uint8_t : 2; uint8_t second : 2; uint8_t first : 2; } field;",
    "  uint8_t all;",
    "};",
    `${type} ${name};`,
  );
  const packed = draft.fresh("packed");
  draft.head.push(
    `struct { unsigned mode : 3; unsigned int speed : 5; int8_t trim : 4; bool on : 1; } ${packed} = { ${dice.int(0, 7)}, ${dice.int(0, 31)}, ${dice.int(-8, 7)}, ${dice.int(0, 1)} };`,
  );
  draft.statements.push((names) =>
    dice.pick([
      [`${name}.field.first = ${draft.between(names, 0, 3)};`, `TCCR${n}A = ${name}.all;`],
      [`${name}.field.wave = ${dice.int(0, 3)};`, `${name}.field.second |= 2;`, `TCCR${n}A = ${name}.all;`],
      [`${name}.all = TCCR${n}A;`, `${name}.field.first ^= 1;`, `TCCR${n}A = ${name}.all;`],
      [`${packed}.speed += ${draft.between(names, 0, 9)};`, `OCR2B = ${packed}.speed * 7;`],
      [`${packed}.trim = ${draft.between(names, 0, 15)};`, `OCR2A = ${packed}.trim + 100;`],
      [`${packed}.mode--;`, `if (${packed}.mode > ${dice.int(0, 6)} && ${packed}.on) OCR1A = ${packed}.mode << 4;`],
      [`${packed}.on = ${draft.expressions.condition(names, 2).text};`],
    ]),
  );
}

function operators(draft: Draft): void {
  const { dice } = draft;
  const type = draft.fresh("Duty");
  const name = draft.fresh("duty");
  draft.body.push(
    `struct ${type} {`,
    "  int value;",
    `  ${type}(int v = 0) : value(v) {}`,
    `  ${type} operator+(const ${type} &other) const { return ${type}(value + other.value); }`,
    `  ${type} &operator+=(int by) { value += by; if (value > ${dice.int(255, 900)}) value = 0; return *this; }`,
    `  bool operator<(const ${type} &other) const { return value < other.value; }`,
    `  operator uint8_t() const { return value; }`,
    "};",
    `${type} ${name} = ${dice.int(0, 200)};`,
    "",
  );
  draft.statements.push((names) =>
    dice.pick([
      [`${name} += ${draft.between(names, 0, 60)};`, `OCR2B = ${name};`],
      [`OCR1A = (${name} + ${type}(${draft.between(names, 0, 200)})).value;`],
      [`if (${name} < ${type}(${dice.int(0, 200)})) OCR2A = ${name}.value; else ${name}.value = ${dice.int(0, 90)};`],
      [`${name} = ${draft.between(names, 0, 250)};`],
    ]),
  );
}

function namespaces(draft: Draft): void {
  const { dice } = draft;
  const name = draft.fresh("Board");
  const kind = draft.fresh("Speed");
  const { number: n } = dice.pick(draft.timers);
  draft.body.push(
    `namespace ${name} {`,
    `enum class ${kind} : uint8_t { Slow = ${dice.int(4, 5)}, Medium = 3, Fast = ${dice.int(1, 2)} };`,
    `constexpr int share(int percent) { return percent * 255L / 100; }`,
    `${dice.pick(["static ", "", "inline "])}void clock(${kind} speed = ${kind}::Medium) {`,
    `  switch (speed) {`,
    `    case ${kind}::Slow: TCCR${n}B = (TCCR${n}B & 0xF8) | 5; break;`,
    `    case ${kind}::Fast: TCCR${n}B = TCCR${n}B & 0xF8 | static_cast<uint8_t>(speed); break;`,
    `    default: TCCR${n}B = (TCCR${n}B & ~0x07) | (uint8_t)speed;`,
    "  }",
    "}",
    `inline void clock(int plain) { clock(plain > 3 ? ${kind}::Fast : ${kind}::Slow); }`,
    "}",
    `static_assert(${name}::share(50) == 127, "half");`,
    "",
  );
  draft.statements.push((names) =>
    dice.pick([
      [`${name}::clock();`],
      [`${name}::clock(${name}::${kind}::${dice.pick(["Slow", "Medium", "Fast"])});`],
      [`${name}::clock(${draft.between(names, 0, 6)});`],
      [`{ using namespace ${name}; OCR2B = share(${dice.int(0, 100)}); }`],
      [`OCR1B = ${name}::share(${draft.between(names, 0, 100)}) * 2;`],
    ]),
  );
}

/** A constructor and a destructor around a block. */
function scopeGuard(draft: Draft): void {
  const { dice } = draft;
  const type = draft.fresh("Held");
  const { number: n } = dice.pick(draft.timers);
  draft.body.push(
    `struct ${type} {`,
    "  uint8_t kept;",
    `  ${type}() : kept(TCCR${n}B) { TCCR${n}B = 0; }`,
    `  ~${type}() { TCCR${n}B = kept; }`,
    "};",
    "",
  );
  draft.statements.push((names) => [
    `{ ${type} held; OCR1A = ${draft.between(names, 0, 500)}; ${dice.pick(["", `if (OCR1A > 99) TCCR${n}A = 0;`])} }`,
  ]);
}

function staticMembers(draft: Draft): void {
  const { dice } = draft;
  const type = draft.fresh("Stirrer");
  draft.body.push(
    `class ${type} {`,
    "public:",
    "  static uint8_t made;",
    `  static void set(int level) { OCR${dice.pick(["2B", "0B", "1A"])} = level + made; }`,
    `  ${type}() { made++; }`,
    "};",
    `uint8_t ${type}::made = ${dice.int(0, 90)};`,
    `${type} ${draft.fresh("stirrer")}${dice.pick(["", `, ${draft.fresh("stirrer")}[${dice.int(2, 4)}]`])};`,
    "",
  );
  draft.actions.push({ name: `${type}::set`, parameters: [I16] });
  draft.globals.push(draft.variable(`${type}::made`, U8, true));
  draft.statements.push((names) =>
    dice.pick([[`{ ${type} more; OCR2A = more.made; }`], [`${type}::set(${draft.between(names, 0, 160)});`]]),
  );
}
