/** `pulsewright plan SKETCH`: the plans of a sketch's wants as lines that change, and as JSON whose edits can be made. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { applyEdits } from "../../server/edits/apply.js";
import { changedLines } from "../../server/edits/changed-lines.js";
import { lineIndex } from "../../shared-model/text-position.js";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { run } from "./run-main.js";

afterAll(removeFolders);

const sketches = join(__dirname, "../plans/sketches");

describe("plan SKETCH", () => {
  it("prints each want with its verdict, plans with costs and changed lines", async () => {
    const { status, out } = await run("plan", join(sketches, "tabs-and-old-remarks.ino"));
    expect(status).toBe(0);
    expect(out).toContain("D3 wants 1 kHz: no");
    expect(out).toContain("1. Set timer 2 for 1 kHz on D3: phase correct, /32, TOP 250 (exact, 251 steps");
    expect(out).toContain("- \tOCR2B = 64; // a quarter");
    expect(out).toContain("+ \tOCR2B = 63;");
    expect(out).toMatch(/To D9: .*16000 steps/);
  });

  it("gives edits in JSON that make the planned sketch", async () => {
    const path = join(sketches, "both-pins.ino");
    const { status, out } = await run("plan", path, "--format", "json");
    expect(status).toBe(0);
    const [sketch] = JSON.parse(out).sketches;
    expect(sketch.wants.map((want: { pin: string; met: string }) => [want.pin, want.met])).toEqual([
      ["9", "no"],
      ["10", "no"],
    ]);
    const text = readFileSync(path, "utf8");
    const index = lineIndex(text);
    const edits = sketch.wants[0].plans[0].edits.map(
      ({ path: of, range, newText }: { path: string; range: { start: never; end: never }; newText: string }) => ({
        span: { path: of, start: index.offsetAt(range.start), end: index.offsetAt(range.end) },
        text: newText,
      }),
    );
    expect(applyEdits(text, edits)).toBe(readFileSync(join(sketches, "both-pins.planned.ino"), "utf8"));
  });

  it("says why there is none, and ends with 1", async () => {
    const { status, out } = await run("plan", join(sketches, "no-timer-on-the-pin.ino"));
    expect(status).toBe(1);
    expect(out).toContain("No plan: no timer drives D7;");
  });

  it("has nothing to do where nothing is wanted, and complains of what is not there", async () => {
    const folder = folderOf({ "lamp/lamp.ino": "void setup() {}\nvoid loop() {}\n" });
    expect(await run("plan", join(folder, "lamp/lamp.ino"))).toMatchObject({ status: 0 });
    expect(await run("plan", join(folder, "lost.ino"))).toMatchObject({ status: 2 });
    expect(await run("plan", join(folder, "lamp/lamp.ino"), "--format", "sarif")).toMatchObject({ status: 2 });
  });
});

describe("changed lines", () => {
  it("show what goes and what comes, without what stays", () => {
    const text = "a\nb\nc\n";
    const edit = (start: number, end: number, by: string) => ({ span: { path: "x", start, end }, text: by });
    expect(changedLines(text, [edit(2, 3, "B\nBB")])).toEqual(["@ line 2", "- b", "+ B", "+ BB"]);
    expect(changedLines(text, [edit(2, 4, "")])).toEqual(["@ line 2", "- b"]);
    expect(changedLines(text, [edit(4, 4, "new\n")])).toEqual(["@ line 3", "+ new"]);
  });
});
