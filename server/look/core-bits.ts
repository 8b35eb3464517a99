/** Which bits of a control register still hold what the core's init put there. */

import type { RegisterValue } from "../../shared-model/register-value.js";
import type { Analysis, RegisterWrite } from "../analysis.js";
import { ownPaths } from "./look.js";

/** The bits under `mask`, where they are known for certain. */
export function maskedBits(value: RegisterValue, mask: number): number | undefined {
  if (value.values !== null) {
    const possible = new Set(value.values.map((each) => each & mask));
    return possible.size === 1 ? [...possible][0] : undefined;
  }
  return ((value.zeros | value.ones) & mask) === mask ? value.ones & mask : undefined;
}

/** Whether no write of the sketch has changed these bits of the register before the given one. */
export function untouchedBefore(analysis: Analysis, write: RegisterWrite, register: string, mask: number): boolean {
  if (!analysis.core || write.beforeInit) return false;
  const own = ownPaths(analysis);
  for (const earlier of analysis.writes) {
    if (earlier === write) return true;
    if (earlier.register !== register || earlier.operator === "core") continue;
    if (!own.has(earlier.span.path)) return false;
    const before = maskedBits(earlier.before, mask);
    if (before === undefined || before !== maskedBits(earlier.after, mask)) return false;
  }
  return true;
}

/** Whether the sketch never changes these bits of the register. */
export function neverTouched(analysis: Analysis, register: string, mask: number): boolean {
  if (!analysis.core) return false;
  return analysis.writes.every((write) => {
    if (write.register !== register || write.operator === "core") return true;
    const before = maskedBits(write.before, mask);
    return before !== undefined && before === maskedBits(write.after, mask);
  });
}
