/** What a driven pin does from reset until the sketch makes it an output: one account for every sheet. */
import type { Analysis, PinHistory, RegisterWrite } from "../analysis.js";
import { pinLabel } from "../look/look.js";
import type { Places } from "./places.js";
import { baseName } from "./signal-rows.js";

export interface FromReset {
  /** `D9` */
  readonly label: string;
  /** `floats (input, no pull-up) at least until lamp.ino:7 makes it an output` */
  readonly words: string;
}

/**
 * Of every pin that the sketch drives. Ports are inputs without pull-ups after reset (DS40002061, I/O ports, "Configuring the
 * Pin": port pins are tri-stated while and after a reset). The first write that can make the pin an output ends this at the
 * earliest: a write on one branch alone need not come.
 */
export function fromReset(analysis: Analysis, places: Places): readonly FromReset[] {
  return analysis.pins.flatMap((pin) =>
    pin.signals.every(({ kind }) => kind === "not driven")
      ? []
      : [{ label: pinLabel(analysis, pin), words: wordsFor(analysis, places, pin) }],
  );
}

/** The same of one pin; null where the sketch never drives it. */
export function fromResetOf(analysis: Analysis, places: Places, pin: PinHistory): string | null {
  return pin.signals.every(({ kind }) => kind === "not driven") ? null : wordsFor(analysis, places, pin);
}

function wordsFor(analysis: Analysis, places: Places, pin: PinHistory): string {
  const output = analysis.writes.find((write) => mayRaise(write, "DDR", pin.port));
  const pulledUp = analysis.writes.find((write) => mayRaise(write, "PORT", pin.port));
  const pullUp =
    pulledUp !== undefined && (output === undefined || before(analysis, pulledUp, output))
      ? `, ${surelyRaises(pulledUp, pin.port) ? "" : "perhaps "}with its weak pull-up from ${where(pulledUp, places)} on`
      : "";
  if (output === undefined) return `floats (input, no pull-up)${pullUp}; no line was seen to make it an output`;
  const early = output.beforeInit ? ", in a constructor before the core starts" : "";
  return `floats (input, no pull-up)${pullUp}, at least until ${where(output, places)} makes it an output${early}`;
}

/** Whether the write can set the pin's bit of `DDRx` or `PORTx` that was clear before. */
function mayRaise(write: RegisterWrite, kind: "DDR" | "PORT", port: string): boolean {
  if (write.register !== `${kind}${port[1]}`) return false;
  const mask = 1 << Number(port[2]);
  const possible = write.after.values?.some((value) => (value & mask) !== 0) ?? (write.after.zeros & mask) === 0;
  return possible && (write.before.ones & mask) === 0;
}

function surelyRaises(write: RegisterWrite, port: string): boolean {
  return (write.after.ones & (1 << Number(port[2]))) !== 0;
}

function before(analysis: Analysis, left: RegisterWrite, right: RegisterWrite): boolean {
  return analysis.writes.indexOf(left) < analysis.writes.indexOf(right);
}

function where(write: RegisterWrite, places: Places): string {
  const { path, line } = places.place(write.span);
  return `${baseName(path)}:${line}`;
}
