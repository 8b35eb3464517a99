/** A sketch that can be rewritten: its text, the files beside it, and the tree of the text as written. */
import { child, ofKind, type SyntaxNode } from "../../server/parse/syntax.js";

export interface Sketch {
  readonly text: string;
  /** Headers by name. */
  readonly headers: ReadonlyMap<string, string>;
  /** Further .ino tabs and .cpp units. */
  readonly tabs: readonly { readonly name: string; readonly text: string }[];
  readonly units: readonly { readonly name: string; readonly text: string }[];
}

export function plainSketch(text: string): Sketch {
  return { text, headers: new Map(), tabs: [], units: [] };
}

export interface Edit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** In every name that a rewriting makes: what such a macro stands for may be a function's own. */
const MADE = "Rewritten";

function isBalanced(text: string): boolean {
  return text.split("{").length === text.split("}").length;
}

/** Edits that do not overlap. */
export function edited(text: string, edits: readonly Edit[]): string {
  let result = text;
  for (const edit of [...edits].sort((a, b) => b.start - a.start || b.end - a.end))
    result = result.slice(0, edit.start) + edit.text + result.slice(edit.end);
  return result;
}

/** A node with those above it, nearest first. */
export interface Placed {
  readonly node: SyntaxNode;
  readonly above: readonly SyntaxNode[];
}

export class Reading {
  readonly all: readonly Placed[];

  constructor(
    readonly sketch: Sketch,
    readonly root: SyntaxNode,
  ) {
    const all: Placed[] = [];
    const walk = (node: SyntaxNode, above: readonly SyntaxNode[]): void => {
      all.push({ node, above });
      const below = [node, ...above];
      for (const each of node.children) walk(each, below);
    };
    walk(root, []);
    this.all = all;
  }

  get text(): string {
    return this.sketch.text;
  }

  of(node: SyntaxNode): string {
    return this.text.slice(node.start, node.end);
  }

  kind(...kinds: readonly string[]): readonly Placed[] {
    return this.all.filter(({ node }) => kinds.includes(node.kind));
  }

  /** Statements inside function bodies, not those of preprocessor lines, nor what only looks like a statement. */
  statements(...kinds: readonly string[]): readonly Placed[] {
    const macros = this.statementMacros;
    const whole = (node: SyntaxNode): boolean =>
      macros.size === 0 || ![...this.identifiers(node)].some((name) => macros.has(name));
    return this.kind(...kinds).filter(
      ({ node: own, above }) =>
        above.some((node) => node.kind === "compound_statement") &&
        // A function known when compiled may have nothing but its return (C++11).
        !above.some((node) => node.kind === "function_definition" && /^[^(]*\bconstexpr\b/.test(this.of(node))) &&
        !above.some((node) => node.kind === "gnu_asm_expression") &&
        whole(own) &&
        !above.some((node) => node.kind.startsWith("preproc")),
    );
  }

  /** Functions with a body, at file level, with a plain name. */
  functions(): readonly WrittenFunction[] {
    const found: WrittenFunction[] = [];
    for (const { node, above } of this.kind("function_definition")) {
      if (above.length !== 1) continue;
      const declarator = child(node, "declarator");
      const body = child(node, "body");
      if (declarator?.kind !== "function_declarator" || body?.kind !== "compound_statement") continue;
      const name = child(declarator, "declarator");
      const parameters = child(declarator, "parameters");
      if (name?.kind !== "identifier" || parameters === undefined) continue;
      found.push({ node, body, parameters, name: this.of(name) });
    }
    return found;
  }

  /** The function of the list around a node. */
  functionAround(placed: Placed): WrittenFunction | undefined {
    return this.functions().find((each) => placed.above.includes(each.node));
  }

  /** Names that a function declares: parameters and locals. */
  locals(code: WrittenFunction): ReadonlySet<string> {
    const names = new Set<string>();
    const identifiers = (node: SyntaxNode): void => {
      if (node.kind === "identifier") names.add(this.of(node));
      for (const each of node.children) identifiers(each);
    };
    identifiers(code.parameters);
    for (const { node, above } of this.kind(
      "declaration",
      "for_range_loop",
      "lambda_expression",
      "enum_specifier",
      "type_definition",
    ))
      if (above.includes(code.body) || node === code.body) identifiers(node);
    return names;
  }

  identifiers(node: SyntaxNode): ReadonlySet<string> {
    const names = new Set<string>();
    const walk = (each: SyntaxNode): void => {
      if (each.kind.endsWith("identifier")) names.add(this.of(each));
      each.children.forEach(walk);
    };
    walk(node);
    return names;
  }

  has(node: SyntaxNode, ...kinds: readonly string[]): boolean {
    return kinds.includes(node.kind) || node.children.some((each) => this.has(each, ...kinds));
  }

  /** Macros that stand for statements, of which some may jump or end a block of another one's. */
  get statementMacros(): ReadonlySet<string> {
    const names = new Set<string>();
    for (const match of this.text.matchAll(/#define[ \t]+(\w+)((?:\\\n|[^\n])*)/g))
      if (
        /\b(return|case|goto|break|continue|switch)\b/.test(match[2]!) ||
        !isBalanced(match[2]!) ||
        match[1]!.includes(MADE)
      )
        names.add(match[1]!);
    return names;
  }

  /** Where declarations at file level may be put: behind the last #include. */
  get head(): number {
    let at = 0;
    for (const { node } of this.kind("preproc_include")) if (node.end > at) at = node.end;
    return at;
  }

  edit(...edits: readonly Edit[]): Sketch {
    return { ...this.sketch, text: edited(this.text, edits) };
  }
}

export interface WrittenFunction {
  readonly node: SyntaxNode;
  readonly body: SyntaxNode;
  readonly parameters: SyntaxNode;
  readonly name: string;
}

/** An `else` branch without the word. */
export function alternativeOf(statement: SyntaxNode): SyntaxNode | undefined {
  const clause = child(statement, "alternative");
  if (clause === undefined) return undefined;
  return clause.kind === "else_clause" ? clause.children.find((each) => each.named) : clause;
}

/** The condition without its parentheses. */
export function conditionOf(statement: SyntaxNode): SyntaxNode | undefined {
  const clause = child(statement, "condition");
  if (clause === undefined) return undefined;
  if (clause.kind === "condition_clause") {
    const inner = child(clause, "value");
    return inner?.kind === "declaration" ? undefined : inner;
  }
  return clause.kind === "parenthesized_expression" ? clause.children.find((each) => each.named) : clause;
}

export function nameOf(definition: SyntaxNode): SyntaxNode | undefined {
  return child(definition, "name") ?? ofKind(definition, "identifier");
}

/** The text with comments and strings blanked out, so that names can be searched in it. */
export function codeOnly(text: string): string {
  return text.replace(/\/\/[^\n]*|\/\*[\s\S]*?\*\/|"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*'/g, (found) =>
    found.replace(/[^\n]/g, " "),
  );
}

export function wordsIn(text: string, name: string): readonly { readonly start: number; readonly end: number }[] {
  const found: { start: number; end: number }[] = [];
  const pattern = new RegExp(`(?<![\\w.#>])${name}(?!\\w)`, "g");
  for (const match of codeOnly(text).matchAll(pattern))
    found.push({ start: match.index, end: match.index + name.length });
  return found;
}
