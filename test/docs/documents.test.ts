/** Printed documents are fresh: where one is not, `npm run docs` writes it. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { between, documents } from "./documents.js";

const root = join(__dirname, "..", "..");

describe("printed documents", () => {
  for (const { path, print } of documents) {
    it(`${path} is what npm run docs would write`, () => {
      const file = join(root, path);
      const now = existsSync(file) ? readFileSync(file, "utf8") : "";
      expect(print(now) === now ? "fresh" : "stale: run npm run docs").toBe("fresh");
    });
  }

  it("only the marked place of a document is replaced", () => {
    expect(between("a\n<!-- t -->\nold\n<!-- /t -->\nb", "t", "new")).toBe("a\n<!-- t -->\nnew\n<!-- /t -->\nb");
    expect(between("no place", "t", "new")).toBe("no place");
  });
});
