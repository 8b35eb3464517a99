import { describe, expect, it } from "vitest";
import { readArguments } from "../../server/cli/arguments.js";

const report = (...words: string[]) => {
  const request = readArguments(["report", ...words]);
  if (request.kind !== "report") throw new Error(JSON.stringify(request));
  return request.report;
};
const reason = (...words: string[]) => {
  const request = readArguments(words);
  return request.kind === "wrong" ? request.reason : `not wrong: ${request.kind}`;
};

describe("words of the command line", () => {
  it("report takes several paths and has defaults", () => {
    expect(report("a.ino", "b")).toEqual({
      paths: ["a.ino", "b"],
      board: undefined,
      clockHz: undefined,
      format: "text",
      libraries: [],
      core: undefined,
      failOn: "error",
      allowed: false,
    });
  });
  it("options may stand anywhere, --libraries several times", () => {
    expect(
      report(
        "--board",
        "mega",
        "a.ino",
        "--clock=8MHz",
        "--libraries",
        "x",
        "--libraries",
        "y",
        "--core",
        "z",
        "--format",
        "json",
        "--fail-on",
        "note",
      ),
    ).toMatchObject({
      paths: ["a.ino"],
      board: "mega",
      clockHz: 8_000_000,
      libraries: ["x", "y"],
      core: "z",
      format: "json",
      failOn: "note",
    });
  });
  it("what cannot be meant is said in one line", () => {
    expect(reason()).toMatch(/no command/);
    expect(reason("report")).toMatch(/needs a sketch file or a folder/);
    expect(reason("report", "a.ino", "--format", "xml")).toMatch(/text, json, markdown, sarif/);
    expect(reason("report", "a.ino", "--fail-on", "never")).toMatch(/note, warning, error/);
    expect(reason("report", "a.ino", "--clock", "fast")).toMatch(/is no clock/);
    expect(reason("report", "a.ino", "--colour")).toMatch(/Unknown option '--colour'/);
    expect(reason("report", "a.ino", "--board")).toMatch(/--board/);
    expect(reason("upload", "a.ino")).toMatch(/unknown command "upload"/);
    expect(reason("serve")).toMatch(/--stdio/);
    expect(reason("explain")).toMatch(/needs one pin/);
    for (const words of [
      ["report", "a.ino", "--colour"],
      ["report", "a.ino", "--board"],
    ])
      expect(reason(...words)).not.toContain("\n");
  });
  it("help and version are found", () => {
    expect(readArguments(["--help"])).toEqual({ kind: "help" });
    expect(readArguments(["report", "--help"])).toEqual({ kind: "help" });
    expect(readArguments(["--version"])).toEqual({ kind: "version" });
    expect(readArguments(["serve", "--stdio"])).toEqual({ kind: "serve" });
  });
});
