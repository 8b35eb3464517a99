/**
 * What the grammar cannot read although C++ has it, spelled so that it can, in as many characters: `unsigned(x)` and its
 * like, values made by a type of several words; attributes; ranges of case labels; `__typeof__`; pointers to members. Every
 * offset stays what it was.
 */

/** Names of as many letters for types whose own names the grammar takes for the start of a declaration. */
export const RESPELLED_TYPES: ReadonlyMap<string, string> = new Map([
  ["unsigned", "$uint16x"],
  ["signed", "$int16"],
  ["long", "$i32"],
  ["short", "$shrt"],
]);

const FUNCTIONAL_CAST = /(?<![\w$]|[\w$][ \t])(unsigned|signed|long|short)(?=[ \t]*\()/g;

/** Attributes place code and data and warn; what a program does they leave alone. */
const ATTRIBUTE = /\b__attribute(?:__)?\s*\(\(|\[\[/g;

/** gcc's `case 1 ... 5`: the three-way comparison, which no label contains, stands for the dots. */
const CASE_RANGE = /\bcase\b[^;{}\n]*?\s\.\.\.(?=\s)/g;
export const CASE_RANGE_OPERATOR = "<=>";

/** avr-gcc's address spaces for C: where data lies, not what it is. */
const ADDRESS_SPACE = /\b__(?:flash[1-5]?|memx)\b/g;

/** gcc's name for the type of an expression. */
const TYPEOF = /\b__typeof(?:__)?(?=\s*\()/g;

/** `T C::*p` declares a pointer to a member: told from others by how it is made and used. */
const MEMBER_POINTER = /(?:\b\w+(?:<[^<>;(){}]*>)?\s*::\s*)+(?=\*)/g;

/** `o.*p` and `o->*p` become members whose names begin with a `$`. */
const CHOSEN_MEMBER = /(?:->|(?<=[A-Za-z_$]\w*\s*|[)\]]\s*)\.)\*(\s*)(?=[A-Za-z_(])/g;

export function respelled(text: string): string {
  let spelled = text.replace(FUNCTIONAL_CAST, (word) => RESPELLED_TYPES.get(word) ?? word);
  if (spelled.includes("__attribute") || spelled.includes("[[")) spelled = withoutAttributes(spelled);
  if (/__flash|__memx/.test(spelled)) spelled = spelled.replace(ADDRESS_SPACE, (word) => " ".repeat(word.length));
  if (spelled.includes("__typeof")) spelled = spelled.replace(TYPEOF, (word) => "decltype".padEnd(word.length));
  if (spelled.includes("...")) {
    spelled = spelled.replace(CASE_RANGE, (label) => label.slice(0, -3) + CASE_RANGE_OPERATOR);
  }
  if (spelled.includes("*")) {
    if (/::\s*\*/.test(spelled)) spelled = spelled.replace(MEMBER_POINTER, (scope) => " ".repeat(scope.length));
    if (/(?:->|\.)\*/.test(spelled)) spelled = chosenMembers(spelled);
  }
  return spelled;
}

/** What stands between quotes on its line stays as it is. */
function chosenMembers(text: string): string {
  return text.replace(CHOSEN_MEMBER, (found: string, blank: string, at: number) => {
    const line = text.slice(text.lastIndexOf("\n", at) + 1, at).replace(/\\./g, "");
    if (line.split('"').length % 2 === 0) return found;
    return `${found.startsWith(".") ? "." : "->"}${blank}$`;
  });
}

function withoutAttributes(text: string): string {
  let spelled = "";
  let kept = 0;
  for (const found of text.matchAll(ATTRIBUTE)) {
    const start = found.index;
    if (start < kept) continue;
    const end = closing(text, start + found[0].length, found[0] === "[[" ? "]]" : "))");
    if (end === null) continue;
    spelled += text.slice(kept, start) + text.slice(start, end).replace(/\S/g, " ");
    kept = end;
  }
  return spelled + text.slice(kept);
}

/** Behind the pair of brackets that closes what is open at `at`; null where a statement ends before. */
function closing(text: string, at: number, pair: string): number | null {
  let depth = 0;
  for (let end = at; end < text.length; end++) {
    const letter = text[end]!;
    if (letter === '"') {
      end = text.indexOf('"', end + 1);
      if (end < 0) return null;
    } else if (letter === "(" || letter === "[") depth++;
    else if (depth === 0 && letter === pair[0]) {
      const partner = text.slice(end + 1).search(/\S/) + end + 1;
      return text[partner] === pair[1] ? partner + 1 : null;
    } else if (letter === ")" || letter === "]") depth--;
    else if (letter === ";" || letter === "{") return null;
  }
  return null;
}
