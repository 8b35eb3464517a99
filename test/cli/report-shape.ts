/** The contract's JSON (design section 6) as a check: what a value has that it should not, or has not that it should. */
import type { Report } from "../../shared-model/report.js";

type Shape = { readonly [key: string]: Shape } | readonly [Shape] | ((value: unknown) => boolean);

const text: Shape = (value) => typeof value === "string";
const number: Shape = (value) => typeof value === "number" && Number.isFinite(value);
const flag: Shape = (value) => typeof value === "boolean";
const oneOf =
  (...values: readonly unknown[]): Shape =>
  (value) =>
    values.includes(value);
const orNull =
  (shape: Shape): Shape =>
  (value) =>
    value === null || faultsAt(shape, value, "").length === 0;
const bounds: Shape = (value) => {
  const { min, max } = value as { min: number; max: number };
  return faultsAt({ min: number, max: number }, value, "").length === 0 && min <= max;
};
const line: Shape = (value) => Number.isInteger(value) && (value as number) >= 1;
const place = { path: text, line };
const position: Shape = {
  line: (value) => Number.isInteger(value) && (value as number) >= 0,
  character: (value) => Number.isInteger(value) && (value as number) >= 0,
};

const register: Shape = (value) => {
  const { values } = value as { values?: unknown };
  if (values !== undefined)
    return Array.isArray(values) && values.length >= 1 && values.length <= 16 && values.every(Number.isInteger);
  const wide = value as { min: unknown; max: unknown; bits: unknown };
  return (
    bounds({ min: wide.min, max: wide.max }) === true &&
    typeof wide.bits === "string" &&
    /^0b(?:[01_]{8}|[01_]{16})$/.test(wide.bits)
  );
};
const registers: Shape = (value) =>
  typeof value === "object" &&
  value !== null &&
  Object.entries(value).every(
    ([name, inner]) => /^(?:TCCR\d[ABC]|OCR\d[ABC]|ICR\d)$/.test(name) && faultsAt(register, inner, "").length === 0,
  );

const regime = oneOf("setup", "running");

const signal: Shape = {
  regime,
  kind: oneOf("pulse", "level", "not driven", "unknown"),
  level: oneOf("low", "high", null),
  driver: oneOf("timer", "port", "interrupt", "software", null),
  frequencyHz: orNull(bounds),
  duty: orNull(bounds),
  highTicks: orNull(bounds),
  periodTicks: orNull(bounds),
  steps: orNull(number),
  top: orNull(bounds),
  prescaler: orNull(number),
  when: orNull(text),
  from: [place],
};

const sketch: Shape = {
  path: text,
  board: text,
  chip: text,
  clockHz: number,
  fCpu: number,
  clockTolerance: number,
  complete: flag,
  gaps: [{ reason: text, ...place, affects: [text] }],
  timers: [{ timer: number, states: [{ regime, mode: text, when: orNull(text), registers }] }],
  pins: [{ pin: text, port: text, units: [text], timer: orNull(number), signals: [signal] }],
  interrupts: [{ vector: text, rateHz: orNull(bounds) }],
  wants: [{ pin: text, text, ...place, met: oneOf("yes", "marginal", "no", "unknown"), reasons: [text] }],
  readings: [
    { pin: text, text, line, fits: oneOf("yes", "no", "unknown"), clockError: orNull(bounds), explanations: [text] },
  ],
  findings: [
    {
      id: text,
      severity: oneOf("error", "warning", "note"),
      message: text,
      path: text,
      range: { start: position, end: position },
      related: [{ ...place, message: text }],
      fixes: [text],
    },
  ],
};

/** Empty where the report is as the contract has it. */
export function shapeFaults(report: Report): string[] {
  return faultsAt(
    { schema: oneOf(1), tool: oneOf("pulsewright"), version: text, sketches: [sketch] },
    report,
    "report",
  );
}

function faultsAt(shape: Shape, value: unknown, at: string): string[] {
  if (typeof shape === "function") return shape(value) ? [] : [`${at}: ${JSON.stringify(value)}`];
  if (Array.isArray(shape)) {
    if (!Array.isArray(value)) return [`${at} is no list`];
    return value.flatMap((entry, index) => faultsAt((shape as readonly [Shape])[0], entry, `${at}[${index}]`));
  }
  if (typeof value !== "object" || value === null) return [`${at} is no object`];
  const fields = shape as { readonly [key: string]: Shape };
  const extra = Object.keys(value).filter((key) => !(key in fields));
  return [
    ...extra.map((key) => `${at}.${key} is not in the contract`),
    ...Object.entries(fields).flatMap(([key, inner]) =>
      key in value
        ? faultsAt(inner, (value as Record<string, unknown>)[key], `${at}.${key}`)
        : [`${at}.${key} is missing`],
    ),
  ];
}
