import { describe, expect, it } from "vitest";
import { commentsIn, targetInComments } from "../../server/files/target-comment.js";

const sketch = (text: string) => [{ path: "lamp.ino", text, kind: "sketch" as const }];

describe("comments of a plain text", () => {
  it("are found with their offsets, strings and characters aside", () => {
    const text = `char *u = "http://x"; // one\nchar c = '"'; /* two\n lines */ int y;`;
    expect(commentsIn(text).map((comment) => comment.text)).toEqual(["// one", "/* two\n lines */"]);
    for (const { start, text: found } of commentsIn(text)) expect(text.startsWith(found, start)).toBe(true);
  });
  it("under #if 0 do not count, after its #else they do", () => {
    const text =
      "#if 0\n// dead\n#ifdef X\n// dead too\n#endif\n#else\n// live\n#endif\n# if  0\n//dead\n#endif\n// last";
    expect(commentsIn(text).map((comment) => comment.text)).toEqual(["// live", "// last"]);
  });
  it("that never end, and quotes that never end, do no harm", () => {
    expect(commentsIn('"open\n// a\n/* b').map((comment) => comment.text)).toEqual(["// a", "/* b"]);
  });
});

describe("board and clock in comments", () => {
  it("are the first named", () => {
    expect(
      targetInComments(sketch("// for pulsewright: board uno, clock 16 MHz +-0.1 %\n// for pulsewright: board mega\n")),
    ).toMatchObject({
      board: "uno",
      clockHz: 16_000_000,
      tolerance: 0.001,
    });
  });
  it("may stand in two comments", () => {
    expect(targetInComments(sketch("// for pulsewright: board uno\n// for pulsewright: clock 8 MHz\n"))).toMatchObject({
      board: "uno",
      clockHz: 8_000_000,
    });
  });
  it("are never read in libraries", () => {
    expect(
      targetInComments([{ path: "Lib.h", text: "// for pulsewright: board mega\n", kind: "library" }]),
    ).toBeUndefined();
  });
});
