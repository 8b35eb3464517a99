/**
 * Every way of making a sketch's text a little smaller that the shrinker tries, each kind by itself and the largest
 * cuts first. Whether what is left still is a program is for the compiler to say.
 */
import { allGroups, type Group, grouped, isGroup, isToken, items, type Part, span } from "./tokens.js";

export interface Edit {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** One kind of cut: all its edits of a text. */
export type Cut = (text: string) => Edit[];

export const CUTS: readonly Cut[] = [cutItems, unwrap, cutArguments, simplify, cutOperands, cutTokens, smallerNumbers];

export function applied(text: string, edit: Edit): string {
  return text.slice(0, edit.from) + edit.text + text.slice(edit.to);
}

/** Runs of statements and declarations: halves of a block, quarters, … single ones. */
function cutItems(text: string): Edit[] {
  return allGroups(grouped(text))
    .filter(({ open }) => open === "" || open === "{")
    .flatMap((group) => {
      const list = items(group);
      const edits: Edit[] = [];
      for (let size = list.length; size >= 1; size = size === 1 ? 0 : Math.ceil(size / 2)) {
        for (let at = 0; at < list.length; at += size) {
          const last = list[Math.min(at + size, list.length) - 1]!;
          edits.push({ from: list[at]!.from, to: last.to, text: "" });
        }
      }
      return edits;
    });
}

/** A statement with a block in it becomes the block's content; `if … else` may lose either arm. */
function unwrap(text: string): Edit[] {
  return allGroups(grouped(text))
    .filter(({ open }) => open === "" || open === "{")
    .flatMap((group) =>
      items(group).flatMap((item) => {
        const blocks = item.parts.filter((part): part is Group => isGroup(part) && part.open === "{");
        const edits = blocks.map(({ from, to }) => ({ from: item.from, to: item.to, text: text.slice(from, to) }));
        const otherwise = item.parts.findIndex((part) => isToken(part, "else"));
        if (otherwise > 0) edits.push({ from: span(item.parts[otherwise]!).from, to: item.to, text: "" });
        // Without braces: what follows the condition.
        const head = item.parts[1];
        if (isToken(item.parts[0], "if", "while", "for") && head !== undefined && isGroup(head)) {
          edits.push({ from: item.from, to: span(head).to, text: "" });
        }
        return edits;
      }),
    );
}

/** Runs between commas: arguments, parameters, elements of a table, declarators. */
function cutArguments(text: string): Edit[] {
  return allGroups(grouped(text)).flatMap(({ parts, from, to, open }) => {
    const commas = parts.filter((part) => isToken(part, ","));
    if (commas.length === 0 || open === "") return [];
    const ends = [from, ...commas.map((comma) => span(comma).from), to];
    return ends.slice(1).map((end, index) => {
      const begin = ends[index]!;
      // The comma before goes along, or, for the first, the comma after.
      return index === 0 ? { from: begin, to: span(commas[0]!).to, text: "" } : { from: begin, to: end, text: "" };
    });
  });
}

/** A bracketed expression, an argument or an initial value becomes 0 or 1; brackets are left away. */
function simplify(text: string): Edit[] {
  const edits: Edit[] = [];
  for (const { parts, from, to, open } of allGroups(grouped(text))) {
    if (open === "(" && parts.length > 0) {
      edits.push({ from, to, text: "0" }, { from, to, text: "1" }, { from: from - 1, to: to + 1, text: "0" });
      // Brackets of a call are not left away: a macro in them could go on meaning a call that nobody would write.
      if (!/\w\s*$/.test(text.slice(0, from - 1)))
        edits.push({ from: from - 1, to: to + 1, text: text.slice(from, to) });
    }
    // Stretches between `=`, `,`, `;`, `?`, `:`, `return`.
    let begin: number | null = null;
    let length = 0;
    let last = from;
    const close = (): void => {
      if (begin !== null && length > 1) {
        edits.push({ from: begin, to: last, text: "0" }, { from: begin, to: last, text: "1" });
      }
    };
    for (const part of parts) {
      if (isToken(part, "=", "+=", "-=", "|=", "&=", "^=", ",", ";", "?", ":", "return")) {
        close();
        begin = isToken(part, ";") && open !== "(" ? null : span(part).to;
        length = 0;
      } else {
        length++;
      }
      last = span(part).to;
    }
    close();
  }
  return edits;
}

const OPERATORS = [
  "+",
  "-",
  "*",
  "/",
  "%",
  "&",
  "|",
  "^",
  "<<",
  ">>",
  "<",
  ">",
  "<=",
  ">=",
  "==",
  "!=",
  "&&",
  "||",
  "?",
  ":",
];

/** `a op b` becomes `a` or `b`. */
function cutOperands(text: string): Edit[] {
  const ends = [...OPERATORS, "=", ",", ";", "return", "+=", "-=", "|=", "&=", "^="];
  return allGroups(grouped(text)).flatMap(({ parts }) =>
    parts.flatMap((part, index) => {
      if (!isToken(part, ...OPERATORS)) return [];
      let left = index;
      while (left > 0 && !isToken(parts[left - 1], ...ends) && !isBlock(parts[left - 1]!)) left--;
      let right = index;
      while (right + 1 < parts.length && !isToken(parts[right + 1], ...ends) && !isBlock(parts[right + 1]!)) right++;
      const edits: Edit[] = [];
      if (right > index) edits.push({ from: part.from, to: span(parts[right]!).to, text: "" });
      if (left < index) edits.push({ from: span(parts[left]!).from, to: part.to, text: "" });
      return edits;
    }),
  );
}

function isBlock(part: Part): boolean {
  return isGroup(part) && part.open === "{";
}

/** One, two or three neighbours: casts, qualifiers, signs, names of a template. */
function cutTokens(text: string): Edit[] {
  return allGroups(grouped(text)).flatMap(({ parts }) =>
    [3, 2, 1].flatMap((size) =>
      parts.slice(0, Math.max(0, parts.length - size + 1)).map((part, index) => ({
        from: span(part).from,
        to: span(parts[index + size - 1]!).to,
        text: "",
      })),
    ),
  );
}

function smallerNumbers(text: string): Edit[] {
  return allGroups(grouped(text)).flatMap(({ parts }) =>
    parts.flatMap((part) => {
      if (isGroup(part) || !/^\d/.test(part.text)) return [];
      const value = Number(part.text.replace(/[uUlLfF]+$/, ""));
      if (!Number.isFinite(value) || value <= 1) return [];
      const next = [0, 1, Math.floor(value / 2)].map((number) => String(number));
      if (part.text !== String(value)) next.push(String(value));
      return next.filter((one) => one !== part.text).map((one) => ({ from: part.from, to: part.to, text: one }));
    }),
  );
}

/** Laid out anew: one statement a line, no comments, no blank lines. */
export function tidied(text: string): string {
  let depth = 0;
  let round = 0;
  let line = "";
  const lines: string[] = [];
  const end = (): void => {
    if (line.trim() !== "") lines.push("  ".repeat(Math.max(0, depth)) + line.trim());
    line = "";
  };
  const walk = (group: Group): void => {
    let before = group.from;
    for (const part of group.parts) {
      const { from, to } = span(part);
      if (from > before && line !== "") line += " ";
      before = to;
      if (isGroup(part)) {
        const block = part.open === "{" && round === 0;
        line += part.open;
        if (block) {
          end();
          depth++;
        } else round++;
        walk(part);
        if (block) {
          end();
          depth--;
        } else round--;
        line += part.open === "{" ? "}" : part.open === "(" ? ")" : "]";
        if (block && !/^[\s]*(?:else|;|,|while|\))/.test(text.slice(to))) end();
      } else if (/^[ \t]*#/.test(part.text)) {
        end();
        lines.push(part.text.trim());
      } else {
        line += part.text;
        if (part.text === ";" && round === 0) end();
      }
    }
  };
  walk(grouped(text));
  end();
  return `${lines.join("\n")}\n`;
}
