/** Pins that a want names by a constant of the sketch, and wants for several pins. */
import { describe, expect, it } from "vitest";
import { findingsOf } from "../../server/findings/findings.js";
import { wantVerdicts } from "../../server/look/judged-wants.js";
import { analysedText } from "../runner/analysed-sketch.js";

const SKETCH = `
const int fan = 9;
#define LAMP 10
#define BRACKETS (11)
#define ALIAS Pins::vent
#define ROUND ABOUT
#define ABOUT ROUND
enum { MOTOR = 3, SENSOR = A0 };
namespace Pins { const byte vent = 5; namespace inner { constexpr int deep = 6; } }
struct Board { static const uint8_t pump = 6; static constexpr int mist = 11; };
enum class Scoped : byte { lamp = 11, next };
constexpr auto after = fan + 1;
namespace { const int hidden = 3; }
int plain = 5;
int changed = 5;
int pointed = 5;
volatile int shared = 5;
static byte quiet = 10, loud = 9;
void other() { const int inner = 11; analogWrite(inner, 1); }
void setup() {
  const int inner = 3;
  // wants inner: 1 kHz
  changed++;
  int *p = &pointed;
  *p = 6;
  analogWrite(inner, plain);
  analogWrite(quiet, loud);
}
void loop() { other(); }
`;

describe("a constant of the sketch", () => {
  it.each([
    ["fan", "9"],
    ["LAMP", "10"],
    ["BRACKETS", "11"],
    ["ALIAS", "5"],
    ["MOTOR", "3"],
    ["SENSOR", "14"],
    ["Pins::vent", "5"],
    ["Pins::inner::deep", "6"],
    ["Board::pump", "6"],
    ["Board::mist", "11"],
    ["Scoped::lamp", "11"],
    ["Scoped::next", "12"],
    ["after", "10"],
    ["hidden", "3"],
    ["plain", "5"],
    ["quiet", "10"],
    ["LED_BUILTIN", "13"],
    ["MOSI", "11"],
    // What has no one value is no pin.
    ["changed", null],
    ["pointed", null],
    ["shared", null],
    ["lamp", null],
    ["pump", null],
    ["ROUND", null],
    ["nobody", null],
    ["Pins::nobody", null],
    ["fan::x", null],
  ])("%s", async (name, expected) => {
    const { analysis } = await analysedText(`// wants ${name}: 1 kHz\n${SKETCH}`);
    expect(analysis.comments[0]!.pin).toBe(expected);
  });

  it("inside a function is that function's own", async () => {
    const { analysis } = await analysedText(SKETCH);
    expect(analysis.comments.map(({ pin, inFunction }) => [pin, inFunction])).toEqual([["3", "setup"]]);
  });
});

describe("a want for several pins", () => {
  const body =
    "void setup() { TCCR1B = _BV(WGM12) | _BV(CS10); }\nvoid loop() { analogWrite(9, 60); analogWrite(3, 60); }";

  it("is judged on each of them", async () => {
    // Timer 1 as fast PWM of 8 bits without prescaling: 62.5 kHz on D9; timer 2 as the core leaves it: 490 Hz on D3.
    const { analysis } = await analysedText(`// wants D9 and D3: 62.5 kHz\n${body}`);
    expect(wantVerdicts(analysis).map(({ pin, met }) => [pin?.pin, met])).toEqual([
      ["9", "yes"],
      ["3", "no"],
    ]);
  });

  it("has a finding at the pin that is none, once", async () => {
    const text = `// wants D9 and D99: 62.5 kHz\n${body}`;
    const { analysis } = await analysedText(text);
    const found = findingsOf(analysis).filter(({ id }) => id === "unread-comment");
    expect(found.map(({ span }) => text.slice(span.start, span.end))).toEqual(["D99"]);
  });

  it("counts the column in the line", async () => {
    const { analysis } = await analysedText(`${body}\n/* lamp\n * wants D9: 1 kHertz\n */\n`);
    const [found] = findingsOf(analysis).filter(({ id }) => id === "unread-comment");
    expect(found?.message).toContain("from column 16 on");
  });
});
