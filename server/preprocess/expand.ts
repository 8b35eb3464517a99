/**
 * Macro expansion: arguments, `#`, `##`, rescanning, and names that are not expanded inside themselves. A stack of
 * token lists is read from the top; a macro is busy while its list is on the stack. Where the standard leaves open
 * what happens at the end of a list (6.10.3.4 example), the compiler in use is followed.
 * Knows nothing of files: tokens beyond the last list come from a `TokenSource`.
 */
import { bodyOf, type Macro } from "./macro.js";
import type { MacroTable } from "./macro-table.js";
import { copy, copyAt, makeToken, PASTES, QUOTED, SPACED, SPENT, type Token } from "./token.js";
import { asOneToken } from "./token-reader.js";

/** The text behind a macro's name, as tokens. */
export interface TokenSource {
  /** Whether the next token is an opening parenthesis. Reads nothing. */
  opens(): boolean;
  next(): Token | undefined;
  mark(): number;
  rewind(mark: number): void;
}

/** What only the place of use can say, and where to complain. */
export interface Surroundings {
  dynamic(macro: Macro, at: Token): string;
  complain(reason: string, at: Token): void;
  /** In a condition: the value of `defined` or `__has_include`, whose operand is read with `next`. */
  operator(name: Token, next: () => Token | undefined): Token | undefined;
}

/** Thrown where one expansion grows past its limits. Caught at the outermost invocation. */
export class ExpansionTooLarge extends Error {}

interface Context {
  readonly tokens: readonly Token[];
  at: number;
  /** Busy until the list is used up. */
  readonly macro: Macro | undefined;
  /** An argument being expanded on its own: its end is the end. */
  readonly barrier: boolean;
  /** Where tokens made by `##` are said to come from. */
  readonly place: Token | undefined;
}

interface Argument {
  readonly raw: Token[];
  expanded: readonly Token[] | undefined;
  /** The variable part was left out altogether. */
  readonly missing: boolean;
}

export class Expander {
  private contexts: Context[] = [];
  private source: TokenSource = NOTHING;
  /** Above 0 while arguments are gathered: names are taken as they are. */
  private gathering = 0;
  /** Whether tokens of the source belong to what is expanded, or only to arguments. */
  private wholeSource = false;
  private inCondition = false;
  /** An expansion to nothing stood behind blank space. */
  private carriedSpace = false;
  private depth = 0;
  private steps = 0;
  /** Steps spent on invocations that came to nothing. */
  private wasted = 0;

  constructor(
    private readonly table: MacroTable,
    private readonly surroundings: Surroundings,
    private readonly limits: { readonly maxTokens: number; readonly maxMacroDepth: number },
  ) {}

  /** The invocation's expansion; undefined where the name turns out not to be invoked. */
  invoke(macro: Macro, name: Token, source: TokenSource): Token[] | undefined {
    return this.guarded(source, false, () => {
      if (!this.enter(macro, name)) return undefined;
      return this.rest();
    });
  }

  /** Expands all tokens of a source: a directive's line. */
  expandAll(source: TokenSource, inCondition: boolean): Token[] {
    const before = this.inCondition;
    this.inCondition = inCondition;
    try {
      return this.guarded(source, true, () => this.rest());
    } finally {
      this.inCondition = before;
    }
  }

  /** Runs with a fresh stack: an `#if` among a macro's arguments expands while the arguments are being gathered. */
  private guarded<T>(source: TokenSource, wholeSource: boolean, work: () => T): T {
    const { contexts, gathering, depth, carriedSpace, steps } = this;
    const before = { source: this.source, wholeSource: this.wholeSource };
    this.contexts = [];
    this.source = source;
    this.wholeSource = wholeSource;
    this.gathering = this.depth = 0;
    this.carriedSpace = false;
    if (contexts.length === 0 && gathering === 0) this.steps = 0;
    try {
      return work();
    } finally {
      // Built-in macros outlive this run: none may stay busy, whatever happened.
      for (const context of this.contexts) if (context.macro !== undefined) context.macro.busy = false;
      this.contexts = contexts;
      this.source = before.source;
      this.wholeSource = before.wholeSource;
      this.gathering = gathering;
      this.depth = depth;
      this.carriedSpace = carriedSpace;
      if (gathering > 0) this.steps = steps;
    }
  }

  private rest(): Token[] {
    const tokens: Token[] = [];
    for (let token = this.next(); token !== undefined; token = this.next()) tokens.push(token);
    return tokens;
  }

  private next(): Token | undefined {
    for (;;) {
      const context = this.contexts[this.contexts.length - 1];
      let token: Token | undefined;
      if (context === undefined) {
        if (!this.wholeSource && this.gathering === 0) return undefined;
        token = this.source.next();
        if (token === undefined) return undefined;
      } else if (context.at === context.tokens.length) {
        if (context.barrier) return undefined;
        this.pop();
        continue;
      } else {
        token = context.tokens[context.at++] as Token;
        if ((token.flags & PASTES) !== 0) {
          this.paste(context, token);
          continue;
        }
      }
      this.step();
      if (this.carriedSpace) {
        token.flags |= SPACED;
        this.carriedSpace = false;
      }
      if (token.kind !== "word" || (token.flags & SPENT) !== 0) return token;
      const macro = this.table.find(token.text);
      if (this.inCondition && this.gathering === 0) {
        const value = this.conditionOperator(token);
        if (value !== undefined) return value;
      }
      if (macro === undefined || macro.self) return token;
      if (macro.busy) {
        token.flags |= SPENT;
        return token;
      }
      if (this.gathering > 0 || !this.enter(macro, token)) return token;
    }
  }

  private conditionOperator(token: Token): Token | undefined {
    if (token.text !== "defined" && !token.text.startsWith("__has_include")) return undefined;
    this.gathering++;
    const value = this.surroundings.operator(token, () => this.next());
    this.gathering--;
    return value;
  }

  private step(): void {
    if (++this.steps <= this.limits.maxTokens && (this.steps < CHEAP || this.steps + this.wasted < MAX_WASTED)) return;
    this.wasted += this.steps;
    this.steps = 0;
    throw new ExpansionTooLarge();
  }

  private push(tokens: readonly Token[], macro: Macro | undefined, barrier: boolean, place: Token | undefined): void {
    if (macro !== undefined) macro.busy = true;
    this.contexts.push({ tokens, at: 0, macro, barrier, place });
  }

  private pop(): void {
    const context = this.contexts.pop();
    if (context?.macro !== undefined) context.macro.busy = false;
  }

  /** Puts the macro's expansion on the stack. False where the name is not an invocation. */
  private enter(macro: Macro, name: Token): boolean {
    let tokens: Token[];
    if (macro.dynamic !== undefined) {
      const text = this.surroundings.dynamic(macro, name);
      const kind = text.startsWith('"') ? "text" : "number";
      tokens = [makeToken(kind, text, 0, name.file, name.start, name.end)];
    } else if (macro.parameters === undefined) {
      tokens = bodyOf(macro).map((token) => copyAt(token, name.file, name.start, name.end));
      if (tokens.length === 1) (tokens[0] as Token).constant = macro.name;
    } else {
      if (!this.opens()) return false;
      const gathered = this.gather(macro, macro.parameters, name);
      if (gathered === undefined) return false;
      const { last } = gathered;
      const end = last.file === name.file ? Math.max(name.end, last.end) : name.end;
      tokens = this.substitute(macro, gathered.arguments, copyAt(name, name.file, name.start, end));
      name = copyAt(name, name.file, name.start, end);
    }
    const spaced = name.flags & SPACED;
    const first = tokens[0];
    if (first !== undefined) first.flags = (first.flags & ~SPACED) | spaced;
    else if (spaced !== 0) this.carriedSpace = true;
    this.push(tokens, macro, false, name);
    return true;
  }

  /** Whether an opening parenthesis comes next. Lists that are used up are left on the way. */
  private opens(): boolean {
    for (;;) {
      const context = this.contexts[this.contexts.length - 1];
      if (context === undefined) return this.source.opens();
      if (context.at < context.tokens.length) {
        const token = context.tokens[context.at] as Token;
        return token.text === "(" && token.kind === "mark";
      }
      if (context.barrier) return false;
      this.pop();
    }
  }

  /** The arguments between parentheses; undefined, with everything put back, where they do not fit the macro. */
  private gather(
    macro: Macro,
    parameters: readonly string[],
    name: Token,
  ): { arguments: Argument[]; last: Token } | undefined {
    const mark = this.source.mark();
    /** Those that did not come from the source, which can go back by itself. */
    const taken: Token[] = [];
    const lists: Token[][] = [[]];
    let depth = -1;
    let count = 0;
    let last: Token | undefined;
    this.gathering++;
    for (;;) {
      const token = this.next();
      if (token === undefined || (count > CHEAP && count + this.wasted > MAX_WASTED)) break;
      count++;
      if (this.contexts.length > 0) taken.push(token);
      if (token.kind === "mark") {
        if (token.text === "(") {
          if (++depth === 0) continue;
        } else if (token.text === ")") {
          if (--depth < 0) {
            last = token;
            break;
          }
        } else if (token.text === "," && depth === 0 && !(macro.variadic && lists.length === parameters.length)) {
          lists.push([]);
          continue;
        }
      }
      (lists[lists.length - 1] as Token[]).push(token);
    }
    this.gathering--;
    const assigned = last === undefined ? undefined : assign(macro, parameters, lists);
    if (assigned !== undefined) return { arguments: assigned, last: last as Token };
    this.wasted += count;
    const problem = last === undefined ? "its closing parenthesis is missing" : "the number of arguments does not fit";
    this.surroundings.complain(`macro '${macro.name}' is not expanded: ${problem}`, name);
    if (this.contexts.length === 0) this.source.rewind(mark);
    // Within an argument the compiler drops what it has gathered, and so does this.
    const atBarrier = last === undefined && this.contexts.length > 0;
    if (taken.length > 0 && !atBarrier) this.push(taken, undefined, false, undefined);
    return undefined;
  }

  private expanded(argument: Argument): readonly Token[] {
    if (argument.expanded === undefined) {
      argument.expanded = argument.raw.some((token) => this.mayExpand(token))
        ? this.expandAlone(argument.raw)
        : argument.raw;
    }
    return argument.expanded;
  }

  private mayExpand(token: Token): boolean {
    if (token.kind !== "word" || (token.flags & SPENT) !== 0) return false;
    const macro = this.table.find(token.text);
    return macro !== undefined && !macro.self;
  }

  private expandAlone(tokens: readonly Token[]): Token[] {
    if (++this.depth > this.limits.maxMacroDepth) throw new ExpansionTooLarge();
    const { gathering } = this;
    this.gathering = 0;
    this.push(tokens, undefined, true, undefined);
    const expanded = this.rest();
    this.contexts.pop();
    this.gathering = gathering;
    this.carriedSpace = false;
    this.depth--;
    return expanded;
  }

  /** The body with arguments in place of parameters. */
  private substitute(macro: Macro, args: readonly Argument[], place: Token): Token[] {
    const tokens: Token[] = [];
    const body = bodyOf(macro);
    for (let index = 0; index < body.length; index++) {
      const token = body[index] as Token;
      if (token.kind !== "parameter") {
        tokens.push(copyAt(token, place.file, place.start, place.end));
        continue;
      }
      const argument = args[token.parameter] as Argument;
      const pastedOn = index > 0 && ((body[index - 1] as Token).flags & PASTES) !== 0;
      const pastes = token.flags & PASTES;
      const given =
        (token.flags & QUOTED) !== 0
          ? [quoted(argument.raw, place)]
          : pastedOn || pastes !== 0
            ? argument.raw
            : this.expanded(argument);
      const before = tokens[tokens.length - 1];
      if (pastedOn && before !== undefined) {
        if (before.text === "," && macro.variadic && token.parameter === args.length - 1) {
          // `, ## __VA_ARGS__`: the comma goes with a variable part that was left out, and is never pasted.
          if (argument.missing) tokens.pop();
          else before.flags &= ~PASTES;
        } else if (given.length === 0) before.flags = (before.flags & ~PASTES) | pastes;
      }
      for (let at = 0; at < given.length; at++) {
        const part = copy(given[at] as Token);
        if (at === 0) part.flags = (part.flags & ~SPACED) | (token.flags & SPACED);
        if (at === given.length - 1) part.flags = (part.flags & ~PASTES) | pastes;
        tokens.push(part);
        this.step();
      }
    }
    return tokens;
  }

  /** Joins `left` with what follows it, as long as `##` stands between, and puts the result on the stack. */
  private paste(context: Context, left: Token): void {
    const place = context.place ?? left;
    let result = copy(left);
    result.flags &= ~PASTES;
    let more = true;
    while (more) {
      const right = context.tokens[context.at];
      if (right === undefined) break;
      const text = result.text + right.text;
      const kind = asOneToken(text);
      // A word behind a literal is its suffix, unless it is a macro.
      const isLiteralAndMacro = kind === "text" && this.table.find(/\w*$/.exec(text)?.[0] ?? "") !== undefined;
      if (kind === undefined || isLiteralAndMacro) {
        this.surroundings.complain(`'${result.text}' and '${right.text}' cannot be pasted to one token`, place);
        break;
      }
      context.at++;
      result = makeToken(kind, text, result.flags & SPACED, place.file, place.start, place.end);
      more = (right.flags & PASTES) !== 0;
    }
    this.push([result], undefined, false, undefined);
  }
}

/**
 * Half-typed text may hold many invocations without an end, and each looks for its own through all that follows.
 * Together they may waste so many steps; from then on each gives up after a few.
 */
const MAX_WASTED = 300_000;
const CHEAP = 128;

const NOTHING: TokenSource = { opens: () => false, next: () => undefined, mark: () => 0, rewind: () => {} };

/** The lists as the macro's arguments, or undefined where their number does not fit. */
function assign(macro: Macro, parameters: readonly string[], lists: Token[][]): Argument[] | undefined {
  const wanted = parameters.length;
  const first = lists[0] as Token[];
  if (wanted === 0) return lists.length === 1 && first.length === 0 ? [] : undefined;
  const leftOut = macro.variadic && (lists.length === wanted - 1 || (wanted === 1 && first.length === 0));
  if (lists.length !== wanted && !leftOut) return undefined;
  const fitted = lists.map((raw): Argument => ({ raw, expanded: undefined, missing: false }));
  if (leftOut) fitted[wanted - 1] = { raw: [], expanded: undefined, missing: true };
  return fitted;
}

/** `#parameter`: the argument as a string literal. */
function quoted(tokens: readonly Token[], place: Token): Token {
  let text = '"';
  for (const token of tokens) {
    if (text.length > 1 && (token.flags & SPACED) !== 0) text += " ";
    text += token.kind === "text" ? token.text.replace(/[\\"]/g, "\\$&").replace(/\n/g, "\\n") : token.text;
  }
  // A lone backslash at the end would quote the closing quote; the compiler drops it.
  let backslashes = 0;
  while (tokens[tokens.length - 1 - backslashes]?.text === "\\") backslashes++;
  if (backslashes % 2 === 1) text = text.slice(0, -1);
  return makeToken("text", `${text}"`, 0, place.file, place.start, place.end);
}
