/**
 * Preprocessing tokens. They exist only where macros are at work: in definitions, arguments, directives. Plain
 * stretches of a sketch never become tokens.
 */

export type TokenKind = "word" | "number" | "text" | "mark" | "parameter";

/** Blank space stood before the token. */
export const SPACED = 1;
/** The name was met inside its own expansion and is never expanded again. */
export const SPENT = 2;
/** `##` follows. */
export const PASTES = 4;
/** A parameter under `#`. */
export const QUOTED = 8;

export interface Token {
  readonly kind: TokenKind;
  readonly text: string;
  flags: number;
  /** Number of the source file, −1 in a macro's stored body. */
  file: number;
  /** In the file: the token itself, or the invocation out of whose body it came. */
  start: number;
  end: number;
  /** Innermost object-like macro whose body is exactly this token. */
  constant: string | null;
  /** Of a parameter: its number. */
  readonly parameter: number;
}

export function makeToken(
  kind: TokenKind,
  text: string,
  flags: number,
  file: number,
  start: number,
  end: number,
): Token {
  return { kind, text, flags, file, start, end, constant: null, parameter: -1 };
}

/** The same token at another place: a fresh object, since flags change while macros are expanded. */
export function copyAt(token: Token, file: number, start: number, end: number): Token {
  return {
    kind: token.kind,
    text: token.text,
    flags: token.flags,
    file,
    start,
    end,
    constant: token.constant,
    parameter: token.parameter,
  };
}

export function copy(token: Token): Token {
  return copyAt(token, token.file, token.start, token.end);
}

/**
 * Whether two characters, the last of one token and the first of the next, could run together into another token
 * if nothing stood between them. Errs on the side of a needless blank.
 */
export function runsTogether(last: number, first: number): boolean {
  const lastWord = isWordLike(last);
  if (isWordLike(first)) return lastWord || last === 0x22 || last === 0x27 || last === 0x2e;
  // 1 .5 and 0xE +1 would be one number, L "x" one literal.
  if (lastWord) return first === 0x2e || first === 0x2b || first === 0x2d || first === 0x22 || first === 0x27;
  return isOperator(last) && isOperator(first);
}

function isWordLike(code: number): boolean {
  return (
    (code >= 0x61 && code <= 0x7a) ||
    (code >= 0x41 && code <= 0x5a) ||
    (code >= 0x30 && code <= 0x39) ||
    code === 0x5f ||
    code === 0x24 ||
    code >= 128
  );
}

/** Brackets, commas, semicolons, quotes and question marks begin or end no longer operator. */
function isOperator(code: number): boolean {
  switch (code) {
    case 0x21: // !
    case 0x23: // #
    case 0x25: // %
    case 0x26: // &
    case 0x2a: // *
    case 0x2b: // +
    case 0x2d: // -
    case 0x2e: // .
    case 0x2f: // /
    case 0x3a: // :
    case 0x3c: // <
    case 0x3d: // =
    case 0x3e: // >
    case 0x5e: // ^
    case 0x7c: // |
      return true;
    default:
      return false;
  }
}

/** The tokens' text as it would be written out: for `macroText`, messages and header names. */
export function spell(tokens: readonly Token[]): string {
  let text = "";
  for (const token of tokens) {
    const together = text.length > 0 && runsTogether(text.charCodeAt(text.length - 1), token.text.charCodeAt(0));
    if (text.length > 0 && ((token.flags & SPACED) !== 0 || together)) text += " ";
    text += token.text;
  }
  return text;
}
