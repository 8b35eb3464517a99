/**
 * Inline assembly: instructions that only work on CPU registers change nothing but the operands they are given to write;
 * those that switch interrupts do what `sei()` and `cli()` do; `sbi`, `cbi`, `out` and `sts` write the register they name,
 * where nothing before them has worked on what they write. All else may have done anything.
 * Source: AVR Instruction Set Manual, DS40002198, "Instruction Set Summary"; gcc manual, "Extended Asm".
 */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { constantOf } from "./constant.js";
import { rvalue } from "./conversions.js";
import { lowerExpression } from "./expressions.js";
import type { Expression, Place, Stretch } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { isPlace, markAddressTaken } from "./places.js";
import { anything, noValue, unknown } from "./stand-ins.js";
import { textBytes } from "./texts.js";
import { INT16, type Type, UINT8, UINT16, VOID } from "./types.js";

/** Instructions that write CPU registers, flags or the program counter alone. */
const INWARD = new Set(
  (
    "nop wdr sleep ldi mov movw add adc sub subi sbc sbci and andi or ori eor com neg sbr cbr inc dec tst clr ser mul " +
    "muls mulsu fmul fmuls fmulsu lsl lsr rol ror asr swap bst bld sec clc sen cln sez clz ses cls sev clv set clt seh " +
    "clh cp cpc cpi cpse adiw sbiw in lds ld ldd lpm elpm sbrc sbrs sbic sbis rjmp brbs brbc breq brne brcs brcc brsh " +
    "brlo brmi brpl brge brlt brhs brhc brts brtc brvs brvc push pop"
  ).split(" "),
);

/** One instruction with what its operands say. */
interface Instruction {
  readonly word: string;
  readonly operands: readonly string[];
}

export function lowerAssembly(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const { start, end } = node;
  const code = child(node, "assembly_code");
  const instructions = code === undefined ? [] : instructionsOf(String.fromCharCode(...textBytes(run, code)));
  const written = operandsOf(run, body, child(node, "output_operands"));
  const read = operandsOf(run, body, child(node, "input_operands")).map(({ name, value }) => ({
    name,
    value: rvalue(value),
  }));
  const steps = instructions.map((each) => stepOf(each, [...written, ...read], instructions, node));
  if (!steps.every((step) => step !== null)) {
    for (const { value } of written) if (isPlace(value)) markAddressTaken(value);
    const operands = [...read.map(({ value }) => value), ...written.map(({ value }) => rvalue(value))];
    const reach: Expression = { op: "integer", value: 0, type: INT16, start, end };
    return unknown(node, "inline assembly", [reach, ...operands]);
  }
  for (const expression of steps) {
    if (expression !== "inward") body.out.push({ op: "expression", expression, start, end });
  }
  for (const { value: target } of written) {
    if (!isPlace(target)) continue;
    const value: Expression = { op: "convert", operand: noValue(node), type: target.type, start, end };
    body.out.push({ op: "initialise", target, value, start, end });
  }
  // No instruction among these takes more than five cycles.
  const cycles = 5 * instructions.length;
  const takesTime = instructions.some(({ word }) => word.startsWith("br"));
  return { ...anything(node, VOID), takesTime, cycles } as Expression;
}

interface Operand {
  readonly name: string | null;
  readonly value: Expression;
}

function operandsOf(run: Lowering, body: Body, list: SyntaxNode | undefined): Operand[] {
  return (list?.children ?? []).flatMap((operand) => {
    const value = child(operand, "value");
    if (value === undefined) return [];
    const symbol = child(operand, "symbol");
    return [{ name: symbol === undefined ? null : run.textOf(symbol), value: lowerExpression(run, body, value) }];
  });
}

/** What the instruction does outside of CPU registers; null where that is not known. */
function stepOf(
  { word, operands }: Instruction,
  given: readonly Operand[],
  all: readonly Instruction[],
  node: Stretch,
): Expression | "inward" | null {
  const { start, end } = node;
  if (INWARD.has(word)) return "inward";
  if (word === "sei" || word === "cli")
    return { op: "core", name: word, self: null, arguments: [], written: [], type: VOID, start, end };
  const [first, second] = operands.map((text) => operandOf(text, given, node));
  const address = first === undefined ? undefined : constantOf(first);
  if (address === undefined || second === undefined) return null;
  if (word === "sbi" || word === "cbi") {
    const bit = constantOf(second);
    if (bit === undefined || address < 0 || address > 0x1f || bit < 0 || bit > 7) return null;
    const mask: Expression = {
      op: "integer",
      value: word === "sbi" ? 1 << bit : 0xff ^ (1 << bit),
      type: INT16,
      start,
      end,
    };
    return storeTo(address + 0x20, word === "sbi" ? "|" : "&", mask, node);
  }
  // What the compiler put into the CPU register is there until something works on it.
  const untouched = all.every((each) => !INWARD.has(each.word) || each.word === "nop" || each.word === "wdr");
  if (!untouched || second.type.kind !== "integer") return null;
  if (word === "out" && address >= 0 && address < 0x40) return storeTo(address + 0x20, null, second, node);
  return word === "sts" && address >= 0x20 && address < 0x200 ? storeTo(address, null, second, node) : null;
}

/** `%0`, `%[name]`, or a number. */
function operandOf(text: string, given: readonly Operand[], { start, end }: Stretch): Expression | undefined {
  const named = /^%\[(\w+)\]$/.exec(text)?.[1];
  if (named !== undefined) return given.find(({ name }) => name === named)?.value;
  const index = /^%(\d+)$/.exec(text)?.[1];
  if (index !== undefined) return given[Number(index)]?.value;
  return /^(0x[0-9a-f]+|\d+)$/i.test(text)
    ? { op: "integer", value: Number(text), type: INT16, start, end }
    : undefined;
}

function storeTo(
  address: number,
  operator: "|" | "&" | null,
  operand: Expression,
  { start, end }: Stretch,
): Expression {
  const type: Type = { kind: "pointer", to: UINT8 };
  const place: Expression = { op: "integer", value: address, type: UINT16, start, end };
  const pointer: Expression = { op: "convert", operand: place, type, start, end };
  const target: Place = { op: "dereference", pointer, type: UINT8, start, end };
  const working = operator === null ? UINT8 : INT16;
  const value: Expression = operand.type === working ? operand : { op: "convert", operand, type: working, start, end };
  const common = { asked: null, written: -1, increment: null, old: false, type: UINT8, start, end } as const;
  return { op: "assign", target, operator, working, value, ...common };
}

/** Instruction by instruction, labels and comments left out. */
function instructionsOf(text: string): Instruction[] {
  return text
    .split(/[\n$]/)
    .map((line) =>
      line
        .replace(/;.*|\/\/.*|\/\*.*?\*\//g, "")
        .replace(/^\s*[\w.%=]+:/, "")
        .trim(),
    )
    .filter((line) => line !== "" && !line.startsWith("."))
    .map((line) => {
      const [word, rest] = /^(\S+)\s*(.*)$/.exec(line)!.slice(1) as [string, string];
      return { word: word.toLowerCase(), operands: rest.split(",").map((each) => each.trim()) };
    });
}
