/** A sketch's text as tokens and nested brackets: all that the shrinker knows of the language. */

export interface Token {
  readonly text: string;
  readonly from: number;
  readonly to: number;
}

/** What stands between two brackets (or the whole text): tokens and inner groups in order. */
export interface Group {
  /** `{`, `(`, `[`, or empty for the whole text. */
  readonly open: string;
  /** Just inside the brackets. */
  readonly from: number;
  readonly to: number;
  readonly parts: readonly Part[];
}

export type Part = Token | Group;

/** A statement, a declaration or a preprocessor line. */
export interface Item {
  readonly from: number;
  readonly to: number;
  readonly parts: readonly Part[];
}

const TOKEN =
  /[ \t]*#(?:\\\r?\n|[^\n])*|"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*'|[A-Za-z_]\w*|\.?\d(?:[eE][+-]|[\w.])*|<<=|>>=|->|\+\+|--|<<|>>|[<>=!+\-*/%&|^]=|&&|\|\||::|\S/g;

/** Comments become blanks, so that offsets stay. */
export function withoutComments(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\/|\/\/[^\n]*|"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*'/g, (found) =>
    found.startsWith("/") ? found.replace(/[^\n]/g, " ") : found,
  );
}

export function isGroup(part: Part): part is Group {
  return "parts" in part;
}

/** The text as nested groups; brackets that do not pair leave a flat rest. */
export function grouped(text: string): Group {
  const source = withoutComments(text);
  const found: Token[] = [];
  for (const match of source.matchAll(TOKEN)) {
    found.push({ text: match[0], from: match.index, to: match.index + match[0].length });
  }
  let at = 0;
  const read = (open: string, from: number): Group => {
    const parts: Part[] = [];
    while (at < found.length) {
      const token = found[at]!;
      if (token.text === "{" || token.text === "(" || token.text === "[") {
        at++;
        parts.push(read(token.text, token.to));
        at++;
      } else if (open !== "" && (token.text === "}" || token.text === ")" || token.text === "]")) {
        return { open, from, to: token.from, parts };
      } else {
        parts.push(token);
        at++;
      }
    }
    return { open, from, to: text.length, parts };
  };
  return read("", 0);
}

/** Where a part begins and ends, brackets included. */
export function span(part: Part): { from: number; to: number } {
  return isGroup(part) ? { from: part.from - 1, to: part.to + 1 } : { from: part.from, to: part.to };
}

export function isToken(part: Part | undefined, ...texts: readonly string[]): part is Token {
  return part !== undefined && !isGroup(part) && texts.includes(part.text);
}

/** The items of a braced group or of the whole text. */
export function items(group: Group): Item[] {
  const found: Item[] = [];
  let begun: Part[] = [];
  const end = (): void => {
    if (begun.length > 0) found.push({ from: span(begun[0]!).from, to: span(begun.at(-1)!).to, parts: begun });
    begun = [];
  };
  group.parts.forEach((part, index) => {
    const next = group.parts[index + 1];
    if (!isGroup(part) && /^[ \t]*#/.test(part.text)) {
      end();
      begun.push(part);
      end();
      return;
    }
    begun.push(part);
    if (isToken(part, ";")) {
      if (!isToken(next, "else")) end();
    } else if (isGroup(part) && part.open === "{") {
      const doLoop = isToken(begun[0], "do") && isToken(next, "while");
      const goesOn = isToken(next, "else", ";", ",", "=", ")", ".") || doLoop || (next !== undefined && isGroup(next));
      // After a class's body may stand the names of objects.
      const named = isToken(begun[0], "struct", "class", "union", "enum") || begun.some((one) => isToken(one, "="));
      if (!goesOn && !named) end();
    } else if (isToken(part, ":") && (isToken(begun[0], "case", "default") || begun.length === 2)) {
      end();
    }
  });
  end();
  return found;
}

/** Every group of the text, outer ones first. */
export function allGroups(group: Group): Group[] {
  return [group, ...group.parts.filter(isGroup).flatMap(allGroups)];
}
