/**
 * Turns an .ino text into C++ the way the board packages' build does: Arduino.h in front, a prototype for every
 * free function put before the first function definition. Knows comments, strings and braces, not the language.
 */

export interface Prepared {
  readonly text: string;
  readonly prototypes: readonly string[];
}

/** Blanks comments, strings and preprocessor lines, keeping length and line breaks. */
function blank(source: string): string {
  const pattern = /\/\*[\s\S]*?\*\/|\/\/[^\n]*|"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*'|^[ \t]*#(?:\\\r?\n|[^\n])*/gm;
  return source.replace(pattern, (match) => match.replace(/[^\n]/g, " "));
}

const NOT_FUNCTIONS = new Set(["if", "while", "for", "switch", "ISR", "SIGNAL", "EMPTY_INTERRUPT", "return", "main"]);

export function prepareSketch(source: string, name: string): Prepared {
  const text = blank(source);
  const prototypes: string[] = [];
  let first = -1;
  let depth = 0;
  let statement = 0;
  for (let at = 0; at < text.length; at++) {
    const char = text[at];
    if (char === "{") {
      if (depth === 0) {
        const head = text.slice(statement, at);
        const found = functionHead(head);
        if (found !== null) {
          const start = statement + head.search(/\S/);
          if (first < 0) first = start;
          if (found.prototype !== null) prototypes.push(found.prototype);
        }
      }
      depth++;
    } else if (char === "}") {
      depth--;
      if (depth === 0) statement = at + 1;
    } else if (char === ";" && depth === 0) {
      statement = at + 1;
    }
  }
  const safe = name.replaceAll("\\", "/");
  if (first < 0) return { text: `#include <Arduino.h>\n#line 1 "${safe}"\n${source}`, prototypes };
  const line = source.slice(0, first).split("\n").length;
  return {
    text: [
      `#include <Arduino.h>\n#line 1 "${safe}"\n`,
      source.slice(0, first),
      `\n${prototypes.join("\n")}\n#line ${line} "${safe}"\n`,
      source.slice(first),
    ].join(""),
    prototypes,
  };
}

/** Whether `head` (all before a top-level brace) is a function's; its prototype where the build would make one. */
function functionHead(head: string): { prototype: string | null } | null {
  const trimmed = head.trim().replace(/\s+/g, " ");
  const match =
    /^(.*?[\s*&])([A-Za-z_]\w*) ?\(([^()]*(?:\([^()]*\)[^()]*)*)\) ?((?:const|noexcept)? ?(?:__attribute__.*)?)$/.exec(
      trimmed,
    );
  if (match === null) return /^(?:ISR|SIGNAL)\b/.test(trimmed) ? { prototype: null } : null;
  const [, before, name, parameters] = match;
  if (/\b(?:class|struct|enum|union|namespace|typedef|operator)\b/.test(before!) && !/\)\s*$/.test(trimmed))
    return null;
  if (/=/.test(before!)) return null;
  if (NOT_FUNCTIONS.has(name!) || /\btemplate\b|\bextern\b|::/.test(before!) || /=/.test(parameters!)) {
    return { prototype: null };
  }
  return { prototype: `${before!.replace(/__attribute__ ?\(\(.*?\)\)/g, "").trim()} ${name}(${parameters});` };
}
