/** The line that makes a pin an output, in the way the sketch does it; none where the sketch does so already. */
import type { Analysis } from "../analysis.js";
import { sketchCalls, sketchWrites } from "../look/look.js";
import { namingStyle } from "../look/naming.js";
import { madeOutput } from "./today.js";

export function directionLines(analysis: Analysis, port: string, name: string | null): readonly string[] {
  const pin = analysis.target.pins.find((candidate) => candidate.port === port);
  const fact = analysis.target.chip.ports.find((candidate) => candidate.letter === port[1]);
  if (fact === undefined) return [];
  const bit = 1 << Number(port[2]);
  const writes = sketchWrites(analysis).filter((write) => write.register === fact.direction);
  const made =
    writes.some((write) => (write.after.ones & bit) !== 0) ||
    (pin !== undefined && madeOutput(analysis, pin.number).length > 0);
  if (made) return [];
  const byRegister =
    !analysis.core ||
    pin === undefined ||
    (analysis.writes.some((write) => write.register.startsWith("DDR") && write.operator !== "core") &&
      sketchCalls(analysis, "pinMode").length === 0);
  if (!byRegister) return [`pinMode(${name ?? pinText(pin.number, pin.analog)}, OUTPUT);`];
  const style = namingStyle(analysis);
  const bitName = `DD${port[1]}${port[2]}`;
  return [style.functions ? `bitSet(${fact.direction}, ${bitName});` : `${fact.direction} |= ${style.bit(bitName)};`];
}

function pinText(number: number, analog: string | undefined): string {
  return analog ?? String(number);
}
