import { afterEach, describe, expect, it } from "vitest";
import type { Report } from "../../shared-model/report.js";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { run } from "./run-main.js";

afterEach(removeFolders);

const LAMP = "void setup() { pinMode(3, OUTPUT); }\nvoid loop() { analogWrite(3, 90); delay(5); }\n";

async function reading(comment: string) {
  const folder = folderOf({ "lamp/lamp.ino": `${comment}\n${LAMP}` });
  const { out } = await run("report", folder, "--format", "json");
  return (JSON.parse(out) as Report).sketches[0]!.readings[0];
}

describe("bench readings", () => {
  it("that fit estimate the clock's error, with their own uncertainty", async () => {
    const found = await reading("// bench reads D3: 491 Hz");
    expect(found).toMatchObject({ pin: "3", line: 1, fits: "yes" });
    // 490.196 Hz is predicted; 491 Hz is read to half a hertz.
    expect(found?.clockError?.min).toBeCloseTo(490.5 / 490.196 - 1, 5);
    expect(found?.clockError?.max).toBeCloseTo(491.5 / 490.196 - 1, 5);
  });
  it("that do not fit say so", async () => {
    expect(await reading("// bench reads D3: 980 Hz")).toMatchObject({ fits: "no", clockError: null });
  });
  it("of a pin that gives no pulse, or of another register state, are not judged", async () => {
    expect(await reading("// bench reads D9: 490 Hz")).toMatchObject({ pin: "9", fits: "unknown" });
    expect(await reading("// bench reads D3 with OCR2A = 0xFE: 985 Hz")).toMatchObject({ fits: "unknown" });
  });
});
