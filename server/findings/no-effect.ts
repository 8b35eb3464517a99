/** `|= (0 << X)` and the like: the write changes nothing though it means to. */
import type { Analysis, RegisterWrite, WrittenExpression } from "../analysis.js";
import { bitNameOf, chain, isBinary, knownValue, withoutCasts } from "../look/expression.js";
import { sketchWrites } from "../look/look.js";
import { namingStyle } from "../look/naming.js";
import { listed } from "../look/show.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, pinsOfTimer, textOf } from "./fix.js";

export const noEffect: FindingRule = {
  id: "no-effect",
  severity: "warning",
  says: "`|= (0 << X)`: the write changes nothing, though it means to clear a bit.",
  why: "ORing zeros clears nothing: the old prescaler or mode bit stays.",
  source: "C standard, bitwise or",
  fires: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2B |= (0 << CS22);
}

void loop() { analogWrite(3, 60); }
`,
  quiet: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = (0 << CS22) | (1 << CS21) | (0 << CS20);
}

void loop() { analogWrite(3, 60); }
`,
  whenFine: "Zeros beside ones, written to show the whole field, are left alone.",
  check(analysis, report) {
    for (const write of sketchWrites(analysis)) {
      if (write.operator !== "|=" || write.expression === null) continue;
      const names = chain(write.expression, "|").map(shiftedZero);
      if (names.length === 0 || !names.every((name) => name !== undefined)) continue;
      report({
        message: `ORing 0 changes nothing: ${listed(names as string[])} of ${write.register} ${names.length === 1 ? "stays" : "stay"} as before. To clear a bit write &= ~.`,
        span: write.span,
        related: [],
        fixes: [clearFix(analysis, write, names as string[])],
      });
    }
  },
};

/** The bit's name in `0 << CS22`. */
function shiftedZero(part: WrittenExpression): string | undefined {
  const inner = withoutCasts(part);
  const [base, count] = inner.operands;
  if (!isBinary(inner, "<<") || base === undefined || count === undefined || knownValue(base) !== 0) return undefined;
  return bitNameOf(count);
}

function clearFix(analysis: Analysis, write: RegisterWrite, names: readonly string[]): Fix {
  return changingFix("Clear the bits: &= ~", "the bits named here become 0", pinsOfTimer(analysis, write.timer), () => {
    const style = namingStyle(analysis);
    const bits = names.map(style.bit).join(" | ");
    return [{ span: write.span, text: `${textOf(analysis, write.target)} &= ~(${bits})` }];
  });
}
