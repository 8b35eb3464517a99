import { symlinkSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import type { Report } from "../../shared-model/report.js";
import { badSketches } from "../files/bad-sketches.js";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { shapeFaults } from "./report-shape.js";
import { run } from "./run-main.js";

afterEach(removeFolders);

const FAN =
  "// wants D3: 490 Hz +-2 %\nvoid setup() { pinMode(3, OUTPUT); }\nvoid loop() { analogWrite(3, 90); delay(5); }\n";
const WRONG = FAN.replace("490 Hz", "1 kHz");

async function json(...words: string[]): Promise<Report> {
  const ran = await run("report", "--format", "json", ...words);
  return JSON.parse(ran.out) as Report;
}

describe("report --format json", () => {
  it("has the contract's shape, on every demo sketch", async () => {
    const report = await json(join(__dirname, "../../client/demo"));
    expect(report.sketches).toHaveLength(4);
    expect(shapeFaults(report)).toEqual([]);
  });
  it("says path and pins as the contract has them", async () => {
    const folder = folderOf({ "fan/fan.ino": FAN });
    const path = `${folder}/./fan/fan.ino`;
    const [sketch] = (await json(path)).sketches;
    expect(sketch).toMatchObject({
      path,
      board: "nano",
      chip: "atmega328p",
      clockHz: 16_000_000,
      fCpu: 16_000_000,
      clockTolerance: 0.005,
      complete: true,
    });
    expect(sketch?.timers.map((timer) => timer.timer)).toEqual([0, 1, 2]);
    const pin = sketch?.pins.find((each) => each.pin === "3");
    expect(pin).toMatchObject({ port: "PD3", units: ["OC2B"], timer: 2 });
    const pulse = pin?.signals.find((signal) => signal.kind === "pulse" && signal.regime === "running");
    expect(pulse?.frequencyHz?.min).toBeCloseTo(16e6 / 64 / 510, 9);
    expect(pulse).toMatchObject({
      steps: 256,
      prescaler: 64,
      top: { min: 255, max: 255 },
      periodTicks: { min: 32_640, max: 32_640 },
      driver: "timer",
    });
    expect(pulse?.highTicks).toEqual({ min: 180 * 64, max: 180 * 64 });
    expect(sketch?.wants[0]).toMatchObject({ pin: "3", met: "yes", line: 1, path });
  });
  it("a bare chip has ports for pins", async () => {
    const folder = folderOf({ "fan/fan.ino": FAN });
    const [sketch] = (await json(folder, "--board", "atmega328p", "--clock", "8MHz")).sketches;
    expect(sketch).toMatchObject({ board: "atmega328p", clockHz: 8_000_000, fCpu: 8_000_000 });
    expect(sketch?.pins.some((pin) => pin.pin === "PD3")).toBe(true);
    expect(sketch?.wants[0]).toMatchObject({ pin: "PD3", met: "no" });
  });
});

describe("exit status", () => {
  it("0, 1 and what --fail-on makes of it", async () => {
    const folder = folderOf({
      "good/good.ino": FAN,
      "wrong/wrong.ino": WRONG,
      "raw/raw.ino": `${FAN}void f() {}`.replace("OUTPUT);", "OUTPUT); TCCR2B = 4;"),
    });
    expect((await run("report", join(folder, "good"))).status).toBe(0);
    expect((await run("report", join(folder, "wrong"))).status).toBe(1);
    const raw = join(folder, "raw");
    expect((await run("report", raw)).status).toBe(0);
    expect((await run("report", raw, "--fail-on", "note")).status).toBe(1);
  });
  it("2 with one clear line for bad usage and unreadable input, nothing on stdout", async () => {
    const folder = folderOf({ "empty/notes.txt": "" });
    for (const [words, line] of [
      [["report"], /needs a sketch file or a folder/],
      [["report", join(folder, "gone.ino")], /gone\.ino: there is no such file or folder/],
      [["report", join(folder, "empty")], /empty: there is no sketch in this folder/],
      [["report", join(folder, "empty/notes.txt")], /this is no sketch file/],
      [["explain", "--board", "uno"], /explain needs one pin/],
      [["plan", "--board", "uno"], /plan needs a pin/],
    ] as const) {
      const ran = await run(...words);
      expect(ran.status).toBe(2);
      expect(ran.out).toBe("");
      expect(ran.complaints).toHaveLength(1);
      expect(ran.complaints[0]).toMatch(line);
      expect(ran.complaints[0]).not.toContain("\n");
    }
  });
  it("2 for a board that is unknown, with the source that asked for it", async () => {
    const folder = folderOf({ "fan/fan.ino": FAN });
    const ran = await run("report", folder, "--board", "nan");
    expect(ran.status).toBe(2);
    expect(ran.complaints[0]).toMatch(/unknown board or chip "nan": did you mean nano\? \(command line\)/);
  });
});

describe("several sketches", () => {
  it("one that cannot be read does not lose the others", async () => {
    const folder = folderOf({ "a/a.ino": FAN, "b/b.ino": Uint8Array.from([1, 0, 2]), "c/c.ino": FAN });
    const ran = await run("report", folder, "--format", "json");
    expect(ran.status).toBe(2);
    expect(ran.complaints).toEqual([expect.stringMatching(/b\.ino: it is a binary file/)]);
    expect((JSON.parse(ran.out) as Report).sketches.map((sketch) => sketch.path.slice(-5))).toEqual(["a.ino", "c.ino"]);
  });
  it("two tabs of one sketch are one sketch", async () => {
    const folder = folderOf({ "a/a.ino": FAN, "a/more.ino": "int x;\n" });
    expect((await json(join(folder, "a/a.ino"), join(folder, "a/more.ino"))).sketches).toHaveLength(1);
  });
  it("a folder that leads back into itself ends", async () => {
    const folder = folderOf({ "a/a.ino": FAN });
    symlinkSync(folder, join(folder, "a", "back"), "dir");
    expect((await json(folder)).sketches).toHaveLength(1);
  });
  it("paths that lead nowhere are said, each in its line", async () => {
    const folder = folderOf({ "a/a.ino": FAN, "b.ino/notes.txt": "" });
    const ran = await run(
      "report",
      join(folder, "a/a.ino/b.ino"),
      join(folder, "b.ino"),
      join(folder, "x".repeat(300)),
      join(folder, "a"),
    );
    expect(ran.status).toBe(2);
    expect(ran.complaints).toHaveLength(3);
    expect(ran.out).toContain("a.ino");
  });
});

describe("libraries", () => {
  it("are executed where they are included", async () => {
    const folder = folderOf({
      "libs/Slow/src/Slow.h": "void slow();\n",
      "libs/Slow/src/Slow.cpp":
        "#include <Arduino.h>\n#include <Slow.h>\nvoid slow() { TCCR2B = (TCCR2B & 0xF8) | 7; }\n",
      "libs/Slow/library.properties": "name=Slow\n",
      "fan/fan.ino": `#include <Slow.h>\n${FAN.replace("OUTPUT);", "OUTPUT); slow();")}`,
    });
    const [sketch] = (await json(join(folder, "fan"), "--libraries", join(folder, "libs"))).sketches;
    const pulse = sketch?.pins.find((pin) => pin.pin === "3")?.signals.find((signal) => signal.regime === "running");
    expect(pulse?.prescaler).toBe(1024);
    expect(pulse?.from.some((place) => place.path.endsWith("Slow.cpp"))).toBe(true);
  });
});

describe("report in text", () => {
  it("says the pin, the arithmetic, the want and the finding", async () => {
    const { out } = await run("report", join(__dirname, "../../client/demo/lamp"));
    for (const part of [
      "30.6373 Hz",
      "16 MHz / (2 · 1024 · 255)",
      "NOT MET",
      "and-before-or",
      "lamp.ino:10:",
      "ATmega328P".toLowerCase(),
    ]) {
      expect(out).toContain(part);
    }
    for (const line of out.split("\n")) expect(line).toBe(line.trimEnd());
  });
});

describe("input that no one means to write", () => {
  it.each(badSketches)("$name", { timeout: 60_000 }, async ({ files, main, status }) => {
    const folder = folderOf(files);
    const ran = await run("report", join(folder, main), "--format", "json");
    expect(status).toContain(ran.status);
    if (ran.status === 2) {
      expect(ran.complaints).toHaveLength(1);
    } else {
      const [sketch] = (JSON.parse(ran.out) as Report).sketches;
      expect(sketch?.gaps.filter((gap) => gap.reason.includes("a bug in Pulsewright"))).toEqual([]);
    }
  });
});
