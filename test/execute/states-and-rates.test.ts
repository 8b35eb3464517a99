/** What the records of an execution say besides signals: which states had to be merged, how often routines come. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { analysedText } from "../runner/analysed-sketch.js";

const sketch = (name: string) => readFileSync(`test/signals/${name}`, "utf8");

describe("states kept apart", () => {
  it("are not told apart by what a bus's registers hold", async () => {
    const { analysis } = await analysedText(sketch("bus-by-registers.ino"));
    expect(analysis.gaps).toEqual([]);
  });
});

describe("rates of routines", () => {
  const beacon = (routine: string, turn = "") => `
    volatile byte start = 101;
    ISR(TIMER2_OVF_vect) { ${routine} PORTB ^= 32; }
    void setup() { DDRB = 32; TCCR2A = 0; TCCR2B = _BV(CS21); TIMSK2 = _BV(TOIE2); TCNT2 = 7; }
    void loop() { ${turn} }`;
  const rate = async (text: string) => (await analysedText(text)).analysis.interrupts[0]?.rateHz;

  it("are those of the timer, whatever the counter began with", async () => {
    expect(await rate(beacon(""))).toEqual({ min: 7812.5, max: 7812.5 });
  });

  it("are not known where a routine sets the counter", async () => {
    expect(await rate(beacon("TCNT2 = 101;"))).toBeNull();
    expect(await rate(beacon("TCNT2 = start + TCNT2;"))).toBeNull();
  });

  it("are not known where every turn sets the counter within a period", async () => {
    expect(await rate(beacon("", "TCNT2 = 0; delayMicroseconds(40);"))).toBeNull();
    expect(await rate(beacon("", "TCNT2 = 0; delay(40);"))).toEqual({ min: 7812.5, max: 7812.5 });
  });
});
