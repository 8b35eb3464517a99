/**
 * The sheet for the build log, whole, as it is printed: the demo sketches, and the odd ones that have what these have not.
 * `npx vitest run test/report -u` rewrites the golden files; read the difference before committing it.
 */
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { run } from "../cli/run-main.js";
import { folderOf, removeFolders } from "../files/folder-of.js";

afterAll(removeFolders);

const DEMO = join(__dirname, "../../client/demo");
const golden = (name: string): string => join(__dirname, "golden", `${name}.md`);

async function sheet(...words: string[]): Promise<string> {
  const { out, complaints } = await run("report", "--format", "markdown", ...words);
  expect(complaints).toEqual([]);
  return out;
}

it.each(["beacon", "greenhouse-fan", "lamp", "pump"])("the demo %s", async (name) => {
  await expect(await sheet(join(DEMO, name))).toMatchFileSnapshot(golden(name));
});

it("several sketches: an overview, then one section each", async () => {
  const whole = await sheet(DEMO);
  expect([...whole.matchAll(/^#{1,2} Signal sheet.*$/gm)].map(([line]) => line)).toEqual([
    "# Signal sheets",
    "## Signal sheet: beacon.ino",
    "## Signal sheet: greenhouse-fan.ino",
    "## Signal sheet: lamp.ino",
    "## Signal sheet: pump.ino",
  ]);
  for (const name of ["beacon", "greenhouse-fan", "lamp", "pump"]) {
    const alone = (await sheet(join(DEMO, name))).replace(/^#/gm, "##").trimEnd();
    expect(whole).toContain(alone);
  }
});

it("nothing driven, nothing wanted", async () => {
  const folder = folderOf({ "idle.ino": "void setup() {}\nvoid loop() {}\n" });
  await expect(await sheet(join(folder, "idle.ino"))).toMatchFileSnapshot(golden("idle"));
});

it("wants by name with their cautions, readings, an interrupt, a call that cannot be seen", async () => {
  const text = `// A kiln's fan and its heater.
// for pulsewright: board uno, clock 16 MHz +-0.2 %
// wants D9: fan-4wire
// wants D6: heater-slow
// wants D77: 4 kHz
// bench reads D9: 24.99 kHz, duty 25 %
// bench reads D9: 980 Hz
extern void listen(int);

ISR(TIMER2_COMPA_vect) { PORTB ^= _BV(0); }

void setup() {
  pinMode(8, OUTPUT);
  pinMode(9, INPUT_PULLUP);
  delay(10);
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = 320;
  OCR1A = 80;
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS22);
  OCR2A = 124;
  TIMSK2 = _BV(OCIE2A);
}

void loop() {
  analogWrite(6, analogRead(A0) / 4);
  delay(100);
}
`;
  const folder = folderOf({ "kiln/kiln.ino": text });
  await expect(await sheet(join(folder, "kiln"))).toMatchFileSnapshot(golden("kiln"));
  const unseen = folderOf({ "kiln/kiln.ino": text.replace("delay(100)", "listen(5)") });
  await expect(await sheet(join(unseen, "kiln"))).toMatchFileSnapshot(golden("kiln-unseen"));
});
