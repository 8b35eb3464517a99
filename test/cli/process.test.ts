/** The command as a process of its own, from its bundle: what only shows there. */
import { execFileSync, spawn, spawnSync } from "node:child_process";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { Editor } from "../lsp/editor.js";

const root = join(__dirname, "..", "..");
const out = join(root, "test", ".cache", "command");
const command = join(out, "pulsewright.js");
const lamp = join(root, "client", "demo", "lamp");

beforeAll(() => {
  execFileSync(process.execPath, [join(root, "build.mjs"), "--outdir", out], { stdio: "ignore" });
});
afterAll(removeFolders);

function run(words: readonly string[], cwd = root) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...words], { cwd, encoding: "utf8" });
  return { status, stdout, stderr };
}

describe("the command", () => {
  it("prints JSON alone on stdout and ends with the status", () => {
    const ran = run(["report", lamp, "--format", "json"]);
    expect(ran).toMatchObject({ status: 1, stderr: "" });
    expect(JSON.parse(ran.stdout)).toMatchObject({
      schema: 1,
      tool: "pulsewright",
      version: expect.stringMatching(/^\d+\.\d+\.\d+$/),
    });
    expect(run(["report", lamp, "--fail-on", "nonsense"])).toMatchObject({ status: 2, stdout: "" });
  });
  it("finds the folder's name where a sketch is named from inside its folder", () => {
    const folder = folderOf({
      "fan/fan.ino": "void setup() { begin(); }\nvoid loop() { delay(9); }\n",
      "fan/more.ino": "void begin() { TCCR2B = 1; }\n",
    });
    for (const words of [["fan.ino"], ["."], ["./fan.ino"], ["more.ino"]]) {
      const ran = run(["report", ...words, "--format", "json"], join(folder, "fan"));
      const { sketches } = JSON.parse(ran.stdout);
      expect(sketches).toHaveLength(1);
      expect(sketches[0].complete).toBe(true);
      const timer = sketches[0].timers.find((each: { timer: number }) => each.timer === 2);
      expect(timer.states[0].registers.TCCR2B).toEqual({ values: [1] });
    }
  });
  it("gives the same bytes every time", () => {
    const words = ["report", join(root, "client", "demo"), "--format", "json"];
    expect(run(words).stdout).toBe(run(words).stdout);
  });
  it("does not mind a reader that has seen enough", async () => {
    const child = spawn(process.execPath, [command, "report", join(root, "client", "demo"), "--format", "json"], {
      stdio: ["ignore", "pipe", "pipe"],
    });
    let complaints = "";
    child.stderr.on("data", (data: Buffer) => {
      complaints += data.toString();
    });
    child.stdout.destroy();
    await new Promise((resolve) => child.on("exit", resolve));
    expect(complaints).toBe("");
  });
  it("serves an editor", async () => {
    const editor = await Editor.start(command, { words: ["serve", "--stdio"] });
    const uri = await editor.open(join(lamp, "lamp.ino"));
    expect((await editor.diagnostics(uri)).map((each) => each.code)).toContain("and-before-or");
    expect(await editor.stop()).toBe(0);
  });
  it("ends with its editor", async () => {
    const editor = await Editor.start(command, { words: ["serve", "--stdio"] });
    const ended = new Promise((resolve) => editor.process.on("exit", resolve));
    editor.process.stdin?.end();
    await ended;
    expect(editor.exited).not.toBeUndefined();
  });
});
