/** The preprocessor against what avr-gcc 5.4.0 made of the same programs; test/oracle-preprocess measures them anew. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { plain, tokens } from "./expand-text.js";

const recorded = JSON.parse(readFileSync(join(__dirname, "recorded.json"), "utf8")) as readonly {
  readonly name: string;
  readonly program: string;
  readonly tokens: string;
}[];

test.each(recorded)("$name", ({ program, tokens: theirs }) => {
  expect(tokens(plain(program).text)).toBe(theirs);
});
