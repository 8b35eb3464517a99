import { describe, expect, it } from "vitest";
import { targetEdit } from "../../server/lsp/target-edit.js";

function edited(text: string, wanted: Parameters<typeof targetEdit>[2]): string {
  const edit = targetEdit("lamp.ino", text, wanted);
  return text.slice(0, edit.span.start) + edit.text + text.slice(edit.span.end);
}

describe("board and clock written into a sketch", () => {
  it("go to the top where no comment names them yet, in the file's own line ends", () => {
    expect(edited("int x;\r\n", { boardId: "uno" })).toBe("// for pulsewright: board uno\r\nint x;\r\n");
  });
  it("replace what the comment said", () => {
    expect(edited("// for pulsewright: board nano\nint x;\n", { boardId: "uno" })).toBe(
      "// for pulsewright: board uno\nint x;\n",
    );
    expect(edited("// for pulsewright: board pro, clock 16 MHz +-1 %\n", { clockHz: 8_000_000 })).toBe(
      "// for pulsewright: board pro, clock 8 MHz\n",
    );
    expect(edited("int x; /* for pulsewright: board nano */\n", { clockHz: 8_000_000 })).toBe(
      "int x; /* for pulsewright: board nano, clock 8 MHz */\n",
    );
  });
  it("leave the rest of the comment as it is", () => {
    expect(
      edited("// for pulsewright: board nano, allow bare-number because it is a table\n", { boardId: "uno" }),
    ).toBe("// for pulsewright: board uno, allow bare-number because it is a table\n");
    expect(edited("// for pulsewright: clock 8 MHz +-1 %\n", { boardId: "pro" })).toBe(
      "// for pulsewright: board pro, clock 8 MHz +-1 %\n",
    );
    expect(edited("// for pulsewright: allow kept-bits because so\n", { boardId: "pro" })).toMatch(
      /^\/\/ for pulsewright: board pro\n\/\/ for/,
    );
  });
  it("a new board takes the old board's clock away", () => {
    expect(edited("// for pulsewright: board pro, clock 8 MHz\n", { boardId: "uno" })).toBe(
      "// for pulsewright: board uno\n",
    );
  });
});
