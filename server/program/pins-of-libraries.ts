/**
 * What the packaged libraries' objects do to pins where their sources are not executed: making a SoftwareSerial and sending
 * through it, starting SPI; and functions that they are given to call back. Source: SPI.cpp, SoftwareSerial.cpp, Wire.cpp of
 * the packaged core (arduino-core-avr 1.8.7). Objects that drive the pins they are made with (displays on parallel lines,
 * stepper motors) keep them outputs and set them with digitalWrite: from memory, the libraries are not packaged.
 */
import { convertTo, rvalue } from "./conversions.js";
import type { Expression, Place, Stretch } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { anything } from "./stand-ins.js";
import { BOOL, INT16, type Type, UINT8, VOID } from "./types.js";

/** An object of a library's class is made with these arguments; `target` where it is a variable. */
export function madeWith(
  run: Lowering,
  body: Body,
  className: string,
  args: readonly Expression[],
  target: Place | null,
  node: Stretch,
): void {
  const driven = DRIVEN[className]?.(args) ?? [];
  const variable = target?.op === "variable" ? target.variable : null;
  for (const argument of driven) {
    const pin = convertTo(run, body, rvalue(argument), UINT8, node);
    if (rvalue(argument).op === "integer") run.drivenPins.push({ className, variable, pin });
    act(body, DRIVES, [pin], node);
  }
  const [receive, transmit, inverse] = args.map((argument) => rvalue(argument));
  if (className !== "SoftwareSerial" || receive === undefined || transmit === undefined) return;
  const pin = convertTo(run, body, transmit, UINT8, node);
  run.transmitPins.push({ variable, pin: pin.op === "integer" ? pin : anything(node, UINT8) });
  const inverted = inverse === undefined ? falsehood(node) : convertTo(run, body, inverse, BOOL, node);
  act(body, className, [convertTo(run, body, receive, UINT8, node), pin, inverted], node);
}

/** A method of such an object is called. */
export function calledOn(
  run: Lowering,
  body: Body,
  className: string,
  self: Place | null,
  method: string,
  args: readonly Expression[],
  node: Stretch,
): void {
  for (const argument of args) if (isFunction(argument)) act(body, "attachInterrupt", callback(argument, node), node);
  if (className === "SPIClass" && method === "begin") {
    const pins = ["SS", "SCK", "MOSI"].flatMap((name) => run.pinNames[name] ?? []);
    act(
      body,
      "SPI.begin",
      pins.map((value): Expression => ({ op: "integer", value, type: UINT8, ...node })),
      node,
    );
  }
  if (DRIVEN[className] !== undefined) {
    const alike = run.drivenPins.filter((driven) => driven.className === className);
    const own = alike.filter(({ variable }) => self?.op === "variable" && variable === self.variable);
    for (const { pin } of own.length > 0 ? own : alike) act(body, DRIVES, [pin], node);
  }
  if (className === "SoftwareSerial" && SENDING.has(method)) {
    const known = run.transmitPins.filter(({ variable }) => self?.op === "variable" && variable === self.variable);
    const pins = (known.length > 0 ? known : run.transmitPins).map(({ pin }) => pin);
    for (const pin of pins) act(body, "SoftwareSerial.write", [pin], node);
  }
}

/** The arguments that name the pins which an object of the class drives. */
const DRIVEN: Readonly<Record<string, (args: readonly Expression[]) => readonly Expression[]>> = {
  LiquidCrystal: (args) => args,
  Stepper: (args) => args.slice(1),
};

const DRIVES = "library drives pin";

const SENDING = new Set(["write", "print", "println"]);

function act(body: Body, name: string, args: readonly Expression[], { start, end }: Stretch): void {
  const call: Expression = { op: "core", name, self: null, arguments: args, written: [], type: VOID, start, end };
  body.out.push({ op: "expression", expression: call, start, end });
}

/** Called from an interrupt routine, or from wherever the library looks after its events: at any time. */
function callback(routine: Expression, node: Stretch): Expression[] {
  return [anything(node, UINT8), rvalue(routine), anything(node, INT16)];
}

function isFunction({ type }: Expression): boolean {
  const to: Type = type.kind === "pointer" ? type.to : type;
  return to.kind === "function";
}

function falsehood({ start, end }: Stretch): Expression {
  return { op: "integer", value: 0, type: BOOL, start, end };
}
