/** Directives: lines that begin with `#`. They put out no text, except that an include reads another file. */
import { endOfLine } from "./characters.js";
import { evaluateCondition } from "./condition.js";
import { type Expander, ExpansionTooLarge } from "./expand.js";
import type { FileCursor } from "./file-cursor.js";
import { readDefinition } from "./macro.js";
import { passOver, skipGroup } from "./skip.js";
import type { SourceFile } from "./source.js";
import { spell, type Token } from "./token.js";
import { lineSource } from "./token-source.js";
import type { UnitState } from "./unit-state.js";

export class Directives {
  constructor(
    private readonly unit: UnitState,
    private readonly expander: Expander,
    private readonly scan: (file: SourceFile) => void,
  ) {}

  /** Carries out the directive whose `#` stands at `hash`. Gives the offset of the newline from which to go on. */
  handle(cursor: FileCursor, hash: number, inArguments: boolean): number {
    const { reader } = cursor;
    reader.at = hash + 1;
    if (reader.read() !== "token") return reader.at;
    const name = reader.token as Token;
    switch (name.text) {
      case "define": {
        const macro = readDefinition(reader);
        if (typeof macro === "string") this.gap(cursor, macro, hash);
        else this.unit.table.define(macro);
        break;
      }
      case "undef":
        if (reader.read() === "token") this.unit.table.undefine((reader.token as Token).text);
        break;
      case "include":
      case "include_next":
      case "import":
        if (!inArguments) return this.include(cursor, hash, name.text === "import");
        this.gap(cursor, "an include among a macro's arguments is not followed", hash);
        break;
      case "ifdef":
      case "ifndef":
        return this.open(cursor, hash, this.isDefined(cursor, hash) === (name.text === "ifdef"));
      case "if":
        return this.open(cursor, hash, this.condition(cursor, hash));
      case "elif":
      case "else":
        return this.leaveGroup(cursor, hash, name.text);
      case "endif":
        if (cursor.conditionals.pop() === undefined) this.gap(cursor, "#endif without #if", hash);
        break;
      case "error":
        this.gap(cursor, `#error ${cursor.text.slice(reader.at, endOfLine(cursor.text, reader.at)).trim()}`, hash);
        break;
      case "line":
        reader.read();
        this.line(cursor, reader.token as Token);
        break;
      case "pragma":
        if (reader.read() === "token" && (reader.token as Token).text === "once") {
          this.unit.once.add(cursor.source.path);
        }
        break;
      case "warning":
      case "ident":
      case "sccs":
      case "assert":
      case "unassert":
        break;
      default:
        if (name.kind === "number") this.line(cursor, name);
        else this.gap(cursor, `unknown directive #${name.text}`, hash);
    }
    return passOver(reader);
  }

  private gap(cursor: FileCursor, reason: string, hash: number): void {
    const end = endOfLine(cursor.text, hash);
    this.unit.run.gap(reason, cursor.number, hash, cursor.text.slice(hash, end).trimEnd().length + hash);
  }

  private isDefined(cursor: FileCursor, hash: number): boolean {
    if (cursor.reader.read() !== "token" || (cursor.reader.token as Token).kind !== "word") {
      this.gap(cursor, "#ifdef or #ifndef without a name", hash);
      return false;
    }
    return this.unit.table.find((cursor.reader.token as Token).text) !== undefined;
  }

  private condition(cursor: FileCursor, hash: number): boolean {
    const { reader } = cursor;
    const tokens: Token[] = [];
    while (reader.read() === "token") tokens.push(reader.token as Token);
    let holds: boolean | string;
    try {
      holds = evaluateCondition(this.expander.expandAll(lineSource(tokens), true));
    } catch (error) {
      if (!(error instanceof ExpansionTooLarge)) throw error;
      holds = "the macros of a condition expand to too much";
    }
    if (typeof holds === "string") this.gap(cursor, `${holds}; taken as false`, hash);
    return holds === true;
  }

  /** Begins a conditional. Where its first group is not taken, goes on in the one that is. */
  private open(cursor: FileCursor, hash: number, holds: boolean): number {
    cursor.conditionals.push({ start: hash, taken: holds, sawElse: false });
    const end = passOver(cursor.reader);
    return holds ? end : this.findGroup(cursor, end);
  }

  /** The group that was taken ends here. */
  private leaveGroup(cursor: FileCursor, hash: number, name: string): number {
    const conditional = cursor.conditionals[cursor.conditionals.length - 1];
    if (conditional === undefined) {
      this.gap(cursor, `#${name} without #if`, hash);
      return passOver(cursor.reader);
    }
    if (conditional.sawElse) this.gap(cursor, `#${name} after #else`, hash);
    if (name === "else") conditional.sawElse = true;
    return this.findGroup(cursor, passOver(cursor.reader));
  }

  /** From the end of a line of the innermost conditional: the end of the line behind which text counts again. */
  private findGroup(cursor: FileCursor, from: number): number {
    const { reader } = cursor;
    for (let at = from; ; ) {
      this.unit.run.stop();
      const found = skipGroup(cursor, at);
      if (found === undefined) return cursor.text.length;
      const conditional = cursor.conditionals[cursor.conditionals.length - 1];
      if (conditional === undefined) return found.at;
      reader.at = found.at;
      if (found.name === "endif") {
        cursor.conditionals.pop();
        return passOver(reader);
      }
      if (conditional.sawElse) this.gap(cursor, `#${found.name} after #else`, found.hash);
      if (found.name === "else") conditional.sawElse = true;
      if (!conditional.taken && (found.name === "else" || this.condition(cursor, found.hash))) {
        conditional.taken = true;
        return passOver(reader);
      }
      at = passOver(reader);
    }
  }

  private include(cursor: FileCursor, hash: number, once: boolean): number {
    const header = this.headerName(cursor);
    const end = passOver(cursor.reader);
    if (header === undefined) {
      this.gap(cursor, "#include without a file's name", hash);
      return end;
    }
    const { run, table } = this.unit;
    const builtin = table.header(header.name) ?? table.headerOfAnyCase(header.name);
    const found = this.find(header.name, header.angled, cursor);
    if (found === undefined && builtin === undefined) {
      this.gap(cursor, `include file '${header.name}' was not found`, hash);
    } else if (found === undefined) {
      run.builtinHeaders.add(builtin?.name ?? header.name);
      table.include(builtin as NonNullable<typeof builtin>);
    } else if (!this.unit.once.has(found.path)) {
      if (once) this.unit.once.add(found.path);
      this.enter(cursor, found, hash);
    }
    return end;
  }

  /** A file of the sketch or of a library; undefined where a built-in header comes first or there is none. */
  private find(name: string, angled: boolean, cursor: FileCursor): SourceFile | undefined {
    const ofCore = this.unit.run.sources.core?.headers.get(name);
    if (ofCore !== undefined) return ofCore;
    const builtin = this.unit.table.header(name);
    // Beside the core's headers stand those whose classes stay built in.
    const stays = builtin !== undefined && !builtin.replaceable;
    if (stays && (angled || cursor.source.kind === "core")) return undefined;
    return this.unit.run.sources.include(name, cursor.source.path, angled);
  }

  private enter(cursor: FileCursor, file: SourceFile, hash: number): void {
    const { open } = this.unit;
    const recursive = open.some((other) => other.source.path === file.path);
    if (open.length >= this.unit.run.limits.maxIncludeDepth || (recursive && this.unit.tooDeep)) {
      if (!this.unit.tooDeep) this.gap(cursor, `includes are nested more than ${open.length} deep`, hash);
      this.unit.tooDeep = true;
      return;
    }
    if (file.kind === "core") this.unit.read.add(file.path.replace(/^.*[\\/]/, ""));
    this.scan(file);
  }

  private headerName(cursor: FileCursor): { name: string; angled: boolean } | undefined {
    const { reader, text } = cursor;
    let at = reader.at;
    while (text.charCodeAt(at) === 0x20 || text.charCodeAt(at) === 0x09) at++;
    const open = text.charCodeAt(at);
    if (open === 0x3c || open === 0x22) {
      const close = text.indexOf(open === 0x3c ? ">" : '"', at + 1);
      if (close < 0 || close > endOfLine(text, at)) return undefined;
      reader.at = close + 1;
      return { name: text.slice(at + 1, close).trim(), angled: open === 0x3c };
    }
    const tokens: Token[] = [];
    while (reader.read() === "token") tokens.push(reader.token as Token);
    try {
      return headerIn(this.expander.expandAll(lineSource(tokens), false));
    } catch (error) {
      if (error instanceof ExpansionTooLarge) return undefined;
      throw error;
    }
  }

  /** The value of `defined` or `__has_include`, whose operand `next` gives unexpanded. */
  operator(name: Token, next: () => Token | undefined): Token | undefined {
    let token = next();
    const bracketed = token?.text === "(";
    if (bracketed) token = next();
    if (token === undefined) return undefined;
    if (name.text === "defined") {
      if (bracketed) next();
      return { ...name, kind: "number", text: this.unit.table.find(token.text) === undefined ? "0" : "1" };
    }
    const operand: Token[] = [];
    for (; token !== undefined && token.text !== ")"; token = next()) operand.push(token);
    const header = headerIn(operand);
    const known =
      header !== undefined &&
      (this.unit.table.header(header.name) !== undefined ||
        this.find(header.name, header.angled, this.unit.cursor) !== undefined);
    return { ...name, kind: "number", text: known ? "1" : "0" };
  }

  private line(cursor: FileCursor, number: Token): void {
    const { reader } = cursor;
    const tokens: Token[] = [number];
    while (reader.read() === "token") tokens.push(reader.token as Token);
    const expanded = this.expander.expandAll(lineSource(tokens), false);
    const wanted = Number.parseInt(expanded[0]?.text ?? "", 10);
    if (Number.isNaN(wanted)) return;
    cursor.lineShift += wanted - cursor.lineOf(reader.at) - 1;
    const name = expanded[1];
    if (name?.kind === "text") cursor.presumedName = name.text.slice(1, -1);
  }
}

/** `"name"` or `<name>`, spelled in tokens. */
function headerIn(tokens: readonly Token[]): { name: string; angled: boolean } | undefined {
  const first = tokens[0];
  if (first?.kind === "text") return { name: first.text.slice(1, -1), angled: false };
  const text = spell(tokens);
  const close = text.indexOf(">");
  if (first?.text !== "<" || close < 0) return undefined;
  // Blanks that the spelling put between operators are no part of a name.
  return { name: text.slice(1, close).replaceAll(" ", ""), angled: true };
}
