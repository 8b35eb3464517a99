/** Hovers on wants, whole: verdict and what the pin gives first, at most eight lines. */
import { expect, it } from "vitest";
import { analyse } from "../../server/analyse.js";
import { hover } from "../../server/features/hover.js";
import { inlayHints } from "../../server/features/inlay-hints.js";
import { readOwnSpecifications } from "../../shared-model/wants/own-specifications.js";
import { analysedText } from "../runner/analysed-sketch.js";

/** The hover on the first want of a sketch, line by line. */
async function hovered(sketch: string): Promise<readonly string[]> {
  const { analysis } = await analysedText(sketch);
  const found = hover(analysis, "sketch.ino", sketch.indexOf("wants") + 2);
  const lines = found?.markdown.split("  \n") ?? [];
  expect(lines.length).toBeLessThanOrEqual(8);
  return lines;
}

// Timer 1, fast PWM to ICR1 = 639 without prescaler: 25 kHz, 640 steps; 100/640 + 1 tick: (100 + 1) / 640 = 15.8 %.
const FAN = `void setup() {
  TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = 639;
  OCR1A = 100;
  OCR1B = 300;
  DDRB |= _BV(1) | _BV(2);
}
void loop() { analogWrite(3, 60); }
`;

it("says what the pin gives, nominal and worst case, steps and the meter's voltage", async () => {
  expect(await hovered(`// wants D9: 25 kHz\n${FAN}`)).toEqual([
    "**D9: met**: 25 kHz (24.875..25.125 kHz over the clock's ±0.5 %)",
    "duty 15.8 %, 0.789 V on a DC meter, 640 steps",
  ]);
});

it("says why it is not met, and where a specification comes from", async () => {
  expect(await hovered(`// wants D3: fan-4wire, 300 steps\n${FAN}`)).toEqual([
    "**D3: not met**: 490.196 Hz (487.745..492.647 Hz over the clock's ±0.5 %)",
    "duty 23.5 %, 1.18 V on a DC meter, 256 steps",
    "490.196 Hz is outside 21000..28000 Hz",
    "only 256 duty steps, 300 wanted",
    "fan-4wire: 4-wire fan control (4-Wire Pulse Width Modulation (PWM) Controlled Fans specification, revision 1.3, section 2.1.4 (section from memory))",
  ]);
});

it("keeps room for the caution", async () => {
  const lines = await hovered(`// wants D3: charging-pilot, duty 90..96 %, 300 steps, idle high\n${FAN}`);
  expect(lines[0]).toContain("**D3: not met**");
  expect(lines.at(-2)).toContain("charging-pilot: vehicle-charging pilot (the trade's figures");
  expect(lines.at(-1)).toContain("⚠ A prediction is no proof of safety");
});

it("has a line for each pin of a want for several", async () => {
  expect(await hovered(`// wants D9, D10 and D3: 25 kHz, idle low\n${FAN}`)).toEqual([
    "**D9: met**: 25 kHz (24.875..25.125 kHz over the clock's ±0.5 %); duty 15.8 %, 0.789 V on a DC meter, 640 steps",
    "**D10: met**: 25 kHz (24.875..25.125 kHz over the clock's ±0.5 %); duty 47 %, 2.35 V on a DC meter, 640 steps",
    "**D3: not met**: 490.196 Hz (487.745..492.647 Hz over the clock's ±0.5 %); duty 23.5 %, 1.18 V on a DC meter, 256 steps; 490.196 Hz is outside 24750..25250 Hz",
  ]);
});

it("tells of ripple, and of the pin before setup", async () => {
  const lines = await hovered(`// wants D9: analog-rc with R = 1 kOhm, C = 1 uF, idle low\n${FAN}`);
  expect(lines[2]).toBe("from reset until setup drives it the pin floats: only a pull resistor holds it low");
  // 25 kHz: T/RC = 0.04, tanh(0.01) = 1 %; half a step of 640: 1 ms · ln 1278 = 7.15 ms.
  expect(lines[3]).toBe(
    "behind 1 kOhm and 1 uF: ripple at most 1 % of the supply (50 mV peak to peak, at duty 50 %), settled to half a step of 640 after 7.15 ms",
  );
});

it("says no voltage where nobody said what feeds the chip", async () => {
  const lines = await hovered(`// for pulsewright: board atmega328p\n// wants PB1: 25 kHz\n${FAN}`);
  expect(lines).toHaveLength(2);
  expect(lines[1]).toBe("duty 15.8 %, 640 steps");
});

it("takes the supply of a board of 3.3 V, and says the width that is asked for", async () => {
  const [, second] = await hovered(
    `// wants D9: 12.5 kHz, pulse 5..20 us\n// for pulsewright: board pro:cpu=8MHzatmega328\n${FAN}`,
  );
  expect(second).toBe("duty 15.8 %, 0.521 V on a DC meter, pulses of 12.63 µs, 640 steps");
});

it("says that a pin is none, or gives nothing", async () => {
  expect(await hovered(`// wants D99: 25 kHz\n${FAN}`)).toEqual([
    "**D99: not known whether met**",
    "D99 is no pin that is known here",
  ]);
  expect(await hovered(`// wants D5: 25 kHz\n${FAN}`)).toEqual([
    "**D5: not met**",
    "no pulse: the pin is not driven (the pin is an input)",
  ]);
});

it("takes the words of somebody's own specification for words", async () => {
  const sketch = `// wants D9: odd\n${FAN}`;
  const { specifications } = readOwnSpecifications({
    odd: { wants: "25 kHz", name: "[here](command:x)", source: "<b>\n*me*</b>", caution: "![x](y) `z`" },
  });
  const { input } = await analysedText(sketch);
  const found = hover(analyse({ ...input, specifications }), "sketch.ino", 5);
  expect(found?.markdown.split("  \n").slice(2)).toEqual([
    "odd: \\[here\\](command:x) (\\<b\\> \\*me\\*\\</b\\>)",
    "⚠ \\!\\[x\\](y) \\`z\\`",
  ]);
});

it("the hint beside a want for several pins is that of the worst", async () => {
  const sketch = `// wants D9 and D3: 25 kHz\n${FAN}`;
  const { analysis } = await analysedText(sketch);
  const [hint] = inlayHints(analysis, "sketch.ino", { start: 0, end: 30 });
  expect(hint?.text).toContain("not met");
  expect(hint?.tooltip).toContain("D9 met: 25000 Hz");
  expect(hint?.tooltip).toContain("D3 not met: 490.196 Hz is outside");
});
