/** Macros: what a definition says. Expansion is elsewhere. */

import { makeToken, PASTES, QUOTED, SPACED, type Token } from "./token.js";
import { TokenReader } from "./token-reader.js";

/** Made by the preprocessor at the place of use. */
export type Dynamic = "line" | "file" | "base file" | "counter" | "depth";

export interface Macro {
  readonly name: string;
  /** Names of the parameters; undefined for an object-like macro. The last is the variable part if `variadic`. */
  readonly parameters: readonly string[] | undefined;
  readonly variadic: boolean;
  /** Number of the built-in header that defines it; 0 is "from the start". */
  readonly header: number;
  /** Defined, but stays as written: registers, and functions that the real headers have as macros. */
  readonly self: boolean;
  readonly dynamic: Dynamic | undefined;
  /** A built-in that gives way to an earlier definition (`#ifndef` around it). */
  readonly yields: boolean;
  /** The body as text, until it is first needed. */
  source: string;
  body: readonly Token[] | undefined;
  /** Of an object-like macro whose body holds no word: the text to put in its place. */
  flat: string | undefined;
  /** The body is a single token. */
  single: boolean;
  /** Being expanded: its name is not expanded again. */
  busy: boolean;
}

/** A macro whose body is read when first used. */
export function lazyMacro(
  name: string,
  parameters: readonly string[] | undefined,
  variadic: boolean,
  source: string,
  header: number,
  yields = false,
): Macro {
  return {
    name,
    parameters,
    variadic,
    header,
    self: false,
    dynamic: undefined,
    yields,
    source,
    body: undefined,
    flat: parameters === undefined && !/[A-Za-z_$"'#]/.test(source.replace(NUMBERS, "")) ? source : undefined,
    single: parameters === undefined && /^[\w.]+$/.test(source),
    busy: false,
  };
}

const NUMBERS = /(?<![\w.])\.?\d(?:[eEpP][+-]|[\w.])*/g;

/** A name that counts as defined and is left as it stands. */
export function selfMacro(name: string, header: number): Macro {
  return { ...lazyMacro(name, undefined, false, name, header), self: true, flat: undefined, single: true };
}

export function dynamicMacro(name: string, dynamic: Dynamic): Macro {
  return { ...lazyMacro(name, undefined, false, name, 0), dynamic, flat: undefined };
}

/** The body's tokens. Their `file` is −1: where they stand is decided by the place of use. */
export function bodyOf(macro: Macro): readonly Token[] {
  if (macro.body === undefined) {
    const reader = new TokenReader(macro.source, -1, undefined);
    const tokens: Token[] = [];
    while (reader.read() === "token") tokens.push(reader.token as Token);
    const read = readBody(tokens, macro.parameters, macro.variadic);
    macro.body = typeof read === "string" ? [] : read;
  }
  return macro.body;
}

/** What is wrong with a definition, in words; or the macro. */
export function readDefinition(reader: TokenReader): Macro | string {
  if (reader.read() !== "token") return "#define without a name";
  const name = reader.token as Token;
  if (name.kind !== "word") return `#define of '${name.text}', which is no name`;
  if (name.text === "defined") return "'defined' cannot be defined";
  let parameters: string[] | undefined;
  let variadic = false;
  if (reader.text.charCodeAt(reader.at) === 0x28) {
    const read = readParameters(reader);
    if (typeof read === "string") return read;
    parameters = read.names;
    variadic = read.variadic;
  }
  const tokens: Token[] = [];
  while (reader.read() === "token") {
    const { kind, text, flags } = reader.token as Token;
    tokens.push(makeToken(kind, text, flags, -1, 0, 0));
  }
  const body = readBody(tokens, parameters, variadic);
  if (typeof body === "string") return body;
  const macro = lazyMacro(name.text, parameters, variadic, "", 0);
  macro.body = body;
  macro.single = parameters === undefined && body.length === 1 && (body[0] as Token).kind !== "parameter";
  macro.flat = parameters === undefined ? flatText(body) : undefined;
  return macro;
}

function readParameters(reader: TokenReader): { names: string[]; variadic: boolean } | string {
  const names: string[] = [];
  const wrong = "the parameter list of a macro cannot be read";
  reader.read();
  for (;;) {
    if (reader.read() !== "token") return wrong;
    let token = reader.token as Token;
    if (token.text === ")" && names.length === 0) return { names, variadic: false };
    let variadic = false;
    if (token.text === "...") {
      names.push("__VA_ARGS__");
      variadic = true;
    } else if (token.kind === "word") {
      if (names.includes(token.text)) return `two parameters of a macro are called '${token.text}'`;
      names.push(token.text);
    } else return wrong;
    if (reader.read() !== "token") return wrong;
    token = reader.token as Token;
    if (token.text === "..." && !variadic) {
      variadic = true;
      if (reader.read() !== "token") return wrong;
      token = reader.token as Token;
    }
    if (token.text === ")") return { names, variadic };
    if (token.text !== "," || variadic) return wrong;
  }
}

/** Marks parameters, `#` and `##` in a body. */
function readBody(
  tokens: readonly Token[],
  parameters: readonly string[] | undefined,
  variadic: boolean,
): Token[] | string {
  const body: Token[] = [];
  for (let index = 0; index < tokens.length; index++) {
    let token = tokens[index] as Token;
    if (token.text === "##" && token.kind === "mark") {
      const before = body[body.length - 1];
      if (before === undefined || index === tokens.length - 1) return "'##' stands at an end of a macro's body";
      before.flags |= PASTES;
      continue;
    }
    if (parameters !== undefined) {
      if (token.text === "#" && token.kind === "mark") {
        const next = tokens[index + 1];
        const number = next?.kind === "word" ? parameters.indexOf(next.text) : -1;
        if (number < 0) return "'#' in a macro's body is not followed by a parameter";
        token = parameterToken(token, number, QUOTED);
        index++;
      } else if (token.kind === "word") {
        const number = parameters.indexOf(token.text);
        if (number >= 0) token = parameterToken(token, number, 0);
        else if (variadic && token.text === "__VA_OPT__") return "__VA_OPT__ is not understood";
      }
    }
    body.push(token);
  }
  if (body.length > 0) (body[0] as Token).flags &= ~SPACED;
  return body;
}

function parameterToken(at: Token, parameter: number, flags: number): Token {
  return { ...at, kind: "parameter", parameter, flags: (at.flags & SPACED) | flags };
}

function flatText(body: readonly Token[]): string | undefined {
  let text = "";
  for (const token of body) {
    if (token.kind === "word" || (token.flags & PASTES) !== 0) return undefined;
    if ((token.flags & SPACED) !== 0) text += " ";
    else if (token.kind !== "mark" && text.length > 0 && /[\w"']$/.test(text)) text += " ";
    text += token.text;
  }
  return text;
}
