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
