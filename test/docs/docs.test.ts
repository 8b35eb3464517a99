import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { printed } from "./print.js";

describe("printed documents", () => {
  it.each(printed)("$path is fresh (else: npm run docs)", ({ path, text }) => {
    expect(readFileSync(join(__dirname, "../..", path), "utf8")).toBe(text);
  });
});
