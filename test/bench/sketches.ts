/** Bench sketches of a given length, the same on every machine and in every run. */
import { type Piece, pieceNumber } from "./pieces.js";

const opening = `// House control: beds, lamps, vents and a fan.
// wants D3: 980 Hz +-1 %

const int statusLamp = 3;
volatile unsigned int ticks = 0;

// Once a millisecond or so; the main loop reads it.
ISR(TIMER2_OVF_vect) {
  ticks++;
}
`;

function closing(pieces: readonly Piece[]): string {
  const setups = pieces.flatMap((piece) => (piece.setup === undefined ? [] : [`  ${piece.setup}`]));
  return [
    "",
    "void setup() {",
    "  Serial.begin(9600);",
    "  pinMode(statusLamp, OUTPUT);",
    "  // Prescaler 32: twice as fast as the core leaves it.",
    "  TCCR2B = (TCCR2B & 0xF8) | 3;",
    "  TIMSK2 |= _BV(TOIE2);",
    ...setups,
    "}",
    "",
    "void loop() {",
    ...pieces.map((piece) => `  ${piece.loop}`),
    "  analogWrite(statusLamp, ticks >> 8);",
    "  delay(10);",
    "}",
    "",
  ].join("\n");
}

/** A sketch of exactly so many lines (at least 80): whole pieces, and a remark at the end that fills the rest. */
export function benchSketch(lines: number): string {
  const pieces: Piece[] = [];
  let text = opening + closing(pieces);
  for (let n = 0; ; n++) {
    const next = [...pieces, pieceNumber(n)];
    const longer = opening + next.map((piece) => piece.text).join("") + closing(next);
    if (lineCount(longer) > lines) break;
    pieces.push(next.at(-1)!);
    text = longer;
  }
  return text + "// To do: the north beds.\n".repeat(lines - lineCount(text));
}

function lineCount(text: string): number {
  return text.split("\n").length - 1;
}

/** Sketches that ask for what costs most: each is short, and honest code could contain it. */
export function worstCases(): ReadonlyMap<string, string> {
  return new Map([
    ["40 branches that set timers", branches(40)],
    ["loops five deep", deepLoops()],
    ["table of 4,000 numbers", bigTable(4_000)],
    ["macros nested 40 deep", nestedMacros(40)],
    ["calls 60 deep", deepCalls(60)],
    ["fade in single steps", fade()],
  ]);
}

function branches(count: number): string {
  const lines = Array.from({ length: count }, (_, n) => {
    const register = ["OCR2B", "OCR1A", "OCR0B", "TCCR2B", "TCCR1B"][n % 5]!;
    return `  if (digitalRead(${n % 14})) ${register} = ${(n * 37) % 256}; else ${register} |= ${1 << (n % 3)};`;
  });
  return `void setup() {\n  pinMode(3, OUTPUT);\n}\n\nvoid loop() {\n${lines.join("\n")}\n  delay(5);\n}\n`;
}

function deepLoops(): string {
  return `int heat = 0;

void setup() {
  pinMode(3, OUTPUT);
  for (int a = 0; a < 20; a++)
    for (int b = 0; b < 20; b++)
      for (int c = 0; c < 20; c++)
        for (int d = 0; d < 20; d++)
          for (int e = 0; e < 20; e++)
            heat += a * b - c * d + e;
  OCR2A = heat;
}

void loop() {
  analogWrite(3, heat);
}
`;
}

function bigTable(count: number): string {
  const rows: string[] = [];
  for (let at = 0; at < count; at += 16)
    rows.push(`  ${Array.from({ length: 16 }, (_, n) => ((at + n) * 73) % 256).join(", ")},`);
  return `const byte song[${count}] = {
${rows.join("\n")}
};

void setup() {
  pinMode(3, OUTPUT);
}

void loop() {
  for (int i = 0; i < ${count}; i++) {
    analogWrite(3, song[i]);
    delay(1);
  }
}
`;
}

function nestedMacros(depth: number): string {
  const lines = ["#define STEP0(x) (x)"];
  for (let n = 1; n <= depth; n++) lines.push(`#define STEP${n}(x) (STEP${n - 1}(x) + ${n})`);
  return `${lines.join("\n")}

void setup() {
  pinMode(3, OUTPUT);
}

void loop() {
${Array.from({ length: 20 }, (_, n) => `  analogWrite(3, STEP${depth}(${n}) & 255);`).join("\n")}
}
`;
}

function deepCalls(depth: number): string {
  const functions = ["int call0(int x) { return x; }"];
  for (let n = 1; n <= depth; n++)
    functions.push(`int call${n}(int x) { return call${n - 1}(x + ${n}) + (x & 1 ? call0(x) : 0); }`);
  return `${functions.join("\n")}

void setup() {
  pinMode(3, OUTPUT);
}

void loop() {
  analogWrite(3, call${depth}(analogRead(A0)) & 127);
}
`;
}

function fade(): string {
  return `int level = 0;
int step = 5;

void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM10);
  TCCR1B = _BV(WGM12) | _BV(CS11);
}

void loop() {
  analogWrite(9, level);
  level += step;
  if (level <= 0 || level >= 255) step = -step;
  delay(30);
}
`;
}
