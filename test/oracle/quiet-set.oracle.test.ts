/** The quiet set is made of sketches that the compiler takes: what is no program proves nothing about false alarms. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { targetInComments } from "../../server/files/target-comment.js";
import { type BoardId, compileSketch } from "./compile.js";

const folder = join(__dirname, "..", "quiet");
/** Boards that the quiet set may name, with the one of the compiler's that has the same chip and pins. */
const BUILDS: Readonly<Record<string, BoardId>> = { nano: "nano", uno: "uno", mega: "mega" };

/** The servo library comes with the IDE and not with the packaged core: its interface stands in, since nothing is run here. */
const SERVO = `struct Servo {
  uint8_t attach(int pin, int least = 544, int most = 2400);
  void detach();
  void write(int angle);
  void writeMicroseconds(int us);
  int read();
  bool attached();
};
uint8_t Servo::attach(int, int, int) { return 0; }
void Servo::detach() {}
void Servo::write(int) {}
void Servo::writeMicroseconds(int) {}
int Servo::read() { return 0; }
bool Servo::attached() { return true; }
`;

describe("the quiet set", () => {
  const names = readdirSync(folder).filter((name) => name.endsWith(".ino"));

  it("holds at least a hundred sketches", () => {
    expect(names.length).toBeGreaterThanOrEqual(100);
  });

  for (const name of names) {
    it(`${name} compiles`, { timeout: 60_000 }, async () => {
      const path = join(folder, name);
      const text = readFileSync(path, "utf8");
      const asked = targetInComments([{ path, text, kind: "sketch" }])?.board ?? "nano";
      const board = BUILDS[asked];
      if (board === undefined) throw new Error(`no build for the board ${asked}`);
      const whole = text.replace("#include <Servo.h>\n", SERVO);
      const { flash } = await compileSketch({ path, text: whole }, board);
      expect(flash.length).toBeGreaterThan(0);
    });
  }
});
