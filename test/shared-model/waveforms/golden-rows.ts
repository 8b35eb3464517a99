/**
 * How the golden tables are written down: one row per line,
 *
 *     WGM CS UNIT COM | A=199 B=49 C=… ICR=… | pulse HIGH / PERIOD, FREQUENCY Hz, STEPS
 *
 * HIGH and PERIOD are CPU clock cycles, written as the data sheet's formula has them (`8*50 / 8*200`). Other answers:
 * `low timer`, `high timer` (the unit holds the pin), `? timer` (constant, the sheet does not say which),
 * `low port` (disconnected, PORT bit 0), `unknown`. The pin is an output with its PORT bit 0, the CPU runs at 16 MHz.
 *
 * The rows were written from the data sheets' tables and formulas before the engine existed.
 */

export interface GoldenRow {
  readonly line: string;
  readonly mode: number;
  readonly clock: number;
  /** "A", "B" or "C" */
  readonly unit: string;
  readonly com: number;
  /** Compare values and ICR by letter, 0 where not given. */
  readonly values: Readonly<Record<string, number>>;
  readonly expected:
    | {
        readonly kind: "pulse";
        readonly high: number;
        readonly period: number;
        readonly hz: string;
        readonly steps: number;
      }
    | { readonly kind: "level"; readonly level: "low" | "high" | null; readonly driver: "timer" | "port" }
    | { readonly kind: "unknown" };
}

export interface GoldenBlock {
  /** Data sheet, section, table. */
  readonly source: string;
  readonly chip: string;
  readonly timer: number;
  readonly rows: string;
}

export function readRows(block: GoldenBlock): GoldenRow[] {
  return block.rows
    .split("\n")
    .map((line) => line.trim())
    .filter((line) => line !== "" && !line.startsWith("#"))
    .map(readRow);
}

function readRow(line: string): GoldenRow {
  const [left = "", middle = "", right = ""] = line.split("|").map((part) => part.trim());
  const [mode, clock, unit = "", com] = left.split(/\s+/);
  const values: Record<string, number> = { A: 0, B: 0, C: 0, ICR: 0 };
  for (const pair of middle.split(/\s+/).filter((text) => text !== "")) {
    const [name = "", value] = pair.split("=");
    values[name] = Number(value);
  }
  return {
    line,
    mode: Number(mode),
    clock: Number(clock),
    unit,
    com: Number(com),
    values,
    expected: readExpected(right),
  };
}

function readExpected(text: string): GoldenRow["expected"] {
  if (text === "unknown") {
    return { kind: "unknown" };
  }
  const level = /^(low|high|\?) (timer|port)$/.exec(text);
  if (level) {
    return {
      kind: "level",
      level: level[1] === "?" ? null : (level[1] as "low" | "high"),
      driver: level[2] as "timer" | "port",
    };
  }
  const pulse = /^pulse ([\d*]+) \/ ([\d*]+), ([\d.]+) Hz, (\d+)$/.exec(text);
  if (!pulse) {
    throw new Error(`not a golden answer: ${text}`);
  }
  const product = (factors: string) => factors.split("*").reduce((result, factor) => result * Number(factor), 1);
  return {
    kind: "pulse",
    high: product(pulse[1]!),
    period: product(pulse[2]!),
    hz: pulse[3]!,
    steps: Number(pulse[4]),
  };
}
