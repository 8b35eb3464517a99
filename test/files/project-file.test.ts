import { afterEach, describe, expect, it } from "vitest";
import { disk } from "../../server/files/file-access.js";
import { projectBoard } from "../../server/files/project-file.js";
import { folderOf, removeFolders } from "./folder-of.js";

afterEach(removeFolders);

const boardIn = (text: string) => projectBoard(folderOf({ "sketch.yaml": text }), disk);

describe("sketch.yaml", () => {
  it("names a board directly", () => {
    expect(boardIn("default_fqbn: arduino:avr:uno\n")).toMatchObject({ kind: "board", boardId: "uno" });
  });
  it("with a processor option", () => {
    expect(boardIn("default_fqbn: arduino:avr:nano:baud=57600,cpu=atmega168\n")).toMatchObject({
      boardId: "nano:cpu=atmega168",
    });
  });
  it("through its default profile, or the only one", () => {
    const profiles = "profiles:\n  bench:\n    fqbn: arduino:avr:mega\n  shed:\n    fqbn: arduino:avr:uno\n";
    expect(boardIn(`${profiles}default_profile: shed\n`)).toMatchObject({ boardId: "uno" });
    expect(boardIn("profiles:\n  bench:\n    fqbn: arduino:avr:mega\n")).toMatchObject({ boardId: "mega" });
    expect(boardIn(profiles)).toEqual({ kind: "none" });
  });
  it("of another family, broken or without a board is said, not guessed", () => {
    expect(boardIn("default_fqbn: other:esp32:thing\n")).toMatchObject({ kind: "unreadable" });
    expect(boardIn("default_fqbn: uno\n")).toMatchObject({ kind: "unreadable" });
    expect(boardIn("a: [1,\n")).toMatchObject({ kind: "unreadable" });
    expect(boardIn("- just\n- a list\n")).toEqual({ kind: "none" });
  });
  it("is not needed", () => {
    expect(projectBoard(folderOf({}), disk)).toEqual({ kind: "none" });
  });
});
