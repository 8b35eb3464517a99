/** What a want inside a function is judged on: what stands there from its line on, also in what is called, and what is left. */
import { describe, expect, it } from "vitest";
import { wantVerdicts } from "../../server/look/judged-wants.js";
import { toNumber } from "../../shared-model/fraction.js";
import { analysedText } from "../runner/analysed-sketch.js";

/** Timer 1 as the core leaves it is phase correct with TOP 255: prescaler 1, 8, 64 give 31372.5, 3921.57, 490.196 Hz. */
const SET = `void set(byte clock) { TCCR1B = (TCCR1B & 0xF8) | clock; }\n`;

/** Each want's text, verdict and the frequencies it was judged on. */
async function judged(sketch: string) {
  const { analysis } = await analysedText(sketch);
  return wantVerdicts(analysis).map(({ want, met, signals, reasons, placed }) => {
    const rates = signals.flatMap(({ frequencyHz }) => (frequencyHz === null ? [] : [toNumber(frequencyHz.min)]));
    expect(placed.judgedOn === undefined).toBe(placed.inFunction === null);
    if (placed.judgedOn !== undefined) expect(reasons.at(-1)).toBe(placed.judgedOn.words);
    for (const { state, kind } of signals)
      if (state !== null && kind === "pulse") expect(analysis.timers[1]!.states[state]).toBeDefined();
    return [want.text, met, [...new Set(rates.map(Math.round))].sort((a, b) => a - b)];
  });
}

describe("what is left at the end counts where it stands", () => {
  it("two functions that set a speed each, the waits outside", async () => {
    const sketch = `${SET}
void slow() {
  // wants D9: 490 Hz, duty 20 % +-1 %
  set(3); analogWrite(9, 51);
}
void fast() {
  // wants D9: 31.37 kHz, duty 80 % +-1 %
  set(1); analogWrite(9, 204);
}
void setup() {}
void loop() { slow(); delay(100); fast(); delay(100); }
`;
    expect(await judged(sketch)).toEqual([
      ["490 Hz, duty 20 % +-1 %", "yes", [490]],
      ["31.37 kHz, duty 80 % +-1 %", "yes", [31373]],
    ]);
  });

  it("the same with the wants exchanged is wrong both times", async () => {
    const sketch = `${SET}
void slow() {
  // wants D9: 31.37 kHz
  set(3); analogWrite(9, 51);
}
void fast() {
  // wants D9: 490 Hz
  set(1); analogWrite(9, 204);
}
void setup() {}
void loop() { slow(); delay(100); fast(); delay(100); }
`;
    expect((await judged(sketch)).map(([, met]) => met)).toEqual(["no", "no"]);
  });

  it("a duty that the caller sets afterwards belongs to what was set up", async () => {
    const sketch = `
void begin() {
  // wants D9: 25 kHz
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = 320;
  pinMode(9, OUTPUT);
}
void setup() { begin(); OCR1A = 100; }
void loop() {}
`;
    expect(await judged(sketch)).toEqual([["25 kHz", "yes", [25000]]]);
  });

  it("the end of a turn", async () => {
    const sketch = `${SET}void setup() { analogWrite(9, 60); }
void loop() {
  set(1); delay(1);
  // wants D9: 490 Hz
  set(3);
}
`;
    expect(await judged(sketch)).toEqual([["490 Hz", "yes", [490]]]);
  });
});

describe("what stands in the function", () => {
  it("begins behind the line", async () => {
    const sketch = `${SET}void setup() { analogWrite(9, 60); }
void loop() {
  set(1); delay(1);
  // wants D9: 490 Hz
  set(3); delay(1);
  set(2); delay(1);
}
`;
    expect(await judged(sketch)).toEqual([["490 Hz", "no", [490, 3922]]]);
  });

  it("ends at the next want for the same pin, not at one for another", async () => {
    const sketch = `${SET}void setup() { analogWrite(9, 60); analogWrite(3, 9); }
void loop() {
  // wants D9: 490 Hz
  set(3); delay(1);
  // wants D3: 490 Hz
  delay(1);
  // wants D9: 3.92 kHz
  set(2); delay(1);
}
`;
    expect(await judged(sketch)).toEqual([
      ["490 Hz", "yes", [490]],
      ["490 Hz", "yes", [490]],
      ["3.92 kHz", "yes", [3922]],
    ]);
  });

  it("goes on in what is called, however deep, and not in what was called before", async () => {
    const sketch = `${SET}
void inner() { set(2); delay(1); set(1); }
void outer() { inner(); }
void setup() { analogWrite(9, 60); }
void loop() {
  outer(); delay(1);
  // wants D9: 3.92 kHz
  outer();
  set(3); delay(1);
}
`;
    expect(await judged(sketch)).toEqual([["3.92 kHz", "no", [490, 3922]]]);
  });

  it("in a loop of its own is all that the loop leaves", async () => {
    const sketch = `${SET}int main() {
  DDRB = 2; TCCR1A = _BV(COM1A1) | _BV(WGM10); TCCR1B = 1; OCR1A = 60;
  for (;;) {
    // wants D9: 490 Hz
    set(3);
    OCR1A = PINC;
  }
}
`;
    expect(await judged(sketch)).toEqual([["490 Hz", "yes", [490]]]);
  });

  it("in setup goes on in all that runs", async () => {
    const body = (loop: string) => `${SET}void setup() {
  // wants D9: 490 Hz
  set(3); analogWrite(9, 60); delay(5);
}
void loop() { ${loop} }
`;
    expect(await judged(body(""))).toEqual([["490 Hz", "yes", [490]]]);
    expect(await judged(body("set(2); delay(5);"))).toEqual([["490 Hz", "no", [490, 3922]]]);
  });

  it("is seen while a routine is under way", async () => {
    const sketch = `${SET}ISR(TIMER2_OVF_vect) { set(2); _delay_ms(1); set(3); }
void setup() { analogWrite(9, 60); TIMSK2 = 1; set(3); }
void loop() {
  // wants D9: 490 Hz
  delay(5);
}
`;
    expect(await judged(sketch)).toEqual([["490 Hz", "no", [490, 3922]]]);
  });
});

describe("where nothing can be told apart", () => {
  it("a want in a function that nobody calls is judged as one of the file", async () => {
    const sketch = `void never() {\n  // wants D9: 490 Hz\n}\nvoid setup() {}\nvoid loop() { analogWrite(9, 60); }\n`;
    const { analysis } = await analysedText(sketch);
    const [want] = wantVerdicts(analysis);
    expect([want?.met, want?.placed.inFunction]).toEqual(["yes", null]);
  });

  it("says so: a function that leaves nothing that stands", async () => {
    const sketch = `void brief() {
  // wants D9: 490 Hz
  TCCR1B = 1;
}
void setup() { analogWrite(9, 60); }
void loop() { brief(); TCCR1B = 2; delay(1); }
`;
    const { analysis } = await analysedText(sketch);
    const [want] = wantVerdicts(analysis);
    expect([want?.met, want?.reasons.at(-1)]).toEqual([
      "no",
      "judged on all that runs: nothing was told apart for brief()",
    ]);
  });

  it("says so: pulses that software makes", async () => {
    const sketch = `void setup() { pinMode(8, OUTPUT); }
void loop() {
  // wants D8: 500 Hz +-5 %
  digitalWrite(8, HIGH); delay(1); digitalWrite(8, LOW); delay(1);
}
`;
    const { analysis } = await analysedText(sketch);
    const [want] = wantVerdicts(analysis);
    expect([want?.met, want?.reasons.at(-1)]).toEqual([
      "yes",
      "judged on all that runs: states of this pin are not told apart by function",
    ]);
  });
});
