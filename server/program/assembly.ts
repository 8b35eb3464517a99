/**
 * Inline assembly: instructions that only work on CPU registers change nothing but the operands they are given to write;
 * those that switch interrupts do what `sei()` and `cli()` do. All else may have done anything.
 * Source: AVR Instruction Set Manual, DS40002198, "Instruction Set Summary"; gcc manual, "Extended Asm".
 */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { rvalue } from "./conversions.js";
import { lowerExpression } from "./expressions.js";
import type { Expression } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { isPlace, markAddressTaken } from "./places.js";
import { textBytes } from "./texts.js";
import { INT16, VOID } from "./types.js";

/** Instructions that write CPU registers, flags or the program counter alone. */
const INWARD = new Set(
  (
    "nop wdr sleep ldi mov movw add adc sub subi sbc sbci and andi or ori eor com neg sbr cbr inc dec tst clr ser mul " +
    "muls mulsu fmul fmuls fmulsu lsl lsr rol ror asr swap bst bld sec clc sen cln sez clz ses cls sev clv set clt seh " +
    "clh cp cpc cpi cpse adiw sbiw in lds ld ldd lpm elpm sbrc sbrs sbic sbis rjmp brbs brbc breq brne brcs brcc brsh " +
    "brlo brmi brpl brge brlt brhs brhc brts brtc brvs brvc push pop"
  ).split(" "),
);

export function lowerAssembly(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const { start, end } = node;
  const code = child(node, "assembly_code");
  const words = code === undefined ? [] : mnemonics(String.fromCharCode(...textBytes(run, code)));
  const values = (list: SyntaxNode | undefined): Expression[] =>
    (list?.children ?? []).flatMap((operand) => {
      const value = child(operand, "value");
      return value === undefined ? [] : [lowerExpression(run, body, value)];
    });
  const read = values(child(node, "input_operands")).map((operand) => rvalue(operand));
  const written = values(child(node, "output_operands"));
  const nothing = { op: "unknown", why: "", harmless: true, type: VOID, start, end } as const;
  if (!words.every((word) => INWARD.has(word) || word === "sei" || word === "cli")) {
    for (const operand of written) if (isPlace(operand)) markAddressTaken(operand);
    const operands = [...read, ...written.map((operand) => rvalue(operand))];
    const reach: Expression = { op: "integer", value: 0, type: INT16, start, end };
    return { ...nothing, why: "inline assembly", operands: [reach, ...operands], harmless: false };
  }
  for (const word of words) {
    if (word !== "sei" && word !== "cli") continue;
    const call: Expression = { op: "core", name: word, self: null, arguments: [], written: [], type: VOID, start, end };
    body.out.push({ op: "expression", expression: call, start, end });
  }
  for (const target of written) {
    if (!isPlace(target)) continue;
    const value: Expression = { op: "convert", operand: { ...nothing, operands: [] }, type: target.type, start, end };
    body.out.push({ op: "initialise", target, value, start, end });
  }
  return { ...nothing, operands: [], takesTime: words.some((word) => word.startsWith("br")) };
}

/** The instructions' names, labels and comments left out. */
function mnemonics(text: string): string[] {
  return text
    .split(/[\n;$]/)
    .map((line) =>
      line
        .replace(/\/\/.*|\/\*.*?\*\//g, "")
        .replace(/^\s*[\w.%=]+:/, "")
        .trim(),
    )
    .filter((line) => line !== "" && !line.startsWith("."))
    .map((line) => line.split(/\s/)[0]!.toLowerCase());
}
