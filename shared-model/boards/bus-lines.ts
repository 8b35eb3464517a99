/**
 * Which ports are lines of a bus: the serial ports, SPI and two-wire. Facts of the chips, where the pins sit in silicon;
 * that the boards' own names (MOSI, SDA …) say the same is a test.
 *
 * Sources: ATmega48A/PA/88A/PA/168A/PA/328/P data sheet (DS40002061), section 14.3 "Alternate Port Functions" (tables of
 * ports B, C and D); ATmega640/1280/1281/2560/2561 data sheet (2549), section 13.3 "Alternate Port Functions" (tables of
 * ports B, D, E, H and J). The section numbers are from memory; the pins were compared with the packaged core's pin files.
 */
import type { Target } from "../chip.js";

export interface BusLine {
  /** As a sketch names what uses the bus: `Serial`, `Serial1`, `SPI`, `Wire`. */
  readonly library: string;
  /** The bits that give the pin to the bus when set: any one of them. */
  readonly enabledBy: { readonly register: string; readonly bits: readonly string[] };
  /** `MOSI`, `RX1`, `SDA` */
  readonly signal: string;
  /** For people: `data line of the SPI bus (MOSI)`. */
  readonly line: string;
}

type Row = readonly [port: string, signal: string, what: string];

const spiRows = (rows: readonly Row[]): [string, BusLine][] =>
  rows.map(([port, signal, what]) => [
    port,
    {
      library: "SPI",
      enabledBy: { register: "SPCR", bits: ["SPE"] },
      signal,
      line: `${what} of the SPI bus (${signal})`,
    },
  ]);

const twoWireRows = (data: string, clock: string): [string, BusLine][] =>
  ([[data, "SDA", "data line"] as const, [clock, "SCL", "clock line"] as const] satisfies readonly Row[]).map(
    ([port, signal, what]) => [
      port,
      {
        library: "Wire",
        enabledBy: { register: "TWCR", bits: ["TWEN"] },
        signal,
        line: `${what} of the two-wire bus (${signal})`,
      },
    ],
  );

function serialRows(number: number, receive: string, transmit: string): [string, BusLine][] {
  const suffix = number === 0 ? "" : String(number);
  const name = number === 0 ? "the serial port" : `serial port ${number}`;
  const shared = number === 0 ? ", which uploading uses as well" : "";
  return (
    [
      [receive, "RX", "receiving", "RXEN"] as const,
      [transmit, "TX", "sending", "TXEN"] as const,
    ] satisfies readonly (readonly [string, string, string, string])[]
  ).map(([port, signal, what, bit]) => [
    port,
    {
      library: `Serial${suffix}`,
      enabledBy: { register: `UCSR${number}B`, bits: [`${bit}${number}`] },
      signal: `${signal}${suffix}`,
      line: `${what} line of ${name} (${signal}${suffix})${shared}`,
    },
  ]);
}

const smallChips: ReadonlyMap<string, BusLine> = new Map([
  ...serialRows(0, "PD0", "PD1"),
  ...spiRows([
    ["PB2", "SS", "select line"],
    ["PB3", "MOSI", "data line"],
    ["PB4", "MISO", "data line"],
    ["PB5", "SCK", "clock line"],
  ]),
  ...twoWireRows("PC4", "PC5"),
]);

const largeChips: ReadonlyMap<string, BusLine> = new Map([
  ...serialRows(0, "PE0", "PE1"),
  ...serialRows(1, "PD2", "PD3"),
  ...serialRows(2, "PH0", "PH1"),
  ...serialRows(3, "PJ0", "PJ1"),
  ...spiRows([
    ["PB0", "SS", "select line"],
    ["PB1", "SCK", "clock line"],
    ["PB2", "MOSI", "data line"],
    ["PB3", "MISO", "data line"],
  ]),
  ...twoWireRows("PD1", "PD0"),
]);

const byChip: Readonly<Record<string, ReadonlyMap<string, BusLine>>> = {
  atmega328p: smallChips,
  atmega168p: smallChips,
  atmega168: smallChips,
  atmega2560: largeChips,
  atmega1280: largeChips,
};

/** Port (`PB3`) → the bus line that it is. A chip that has no row here has none that is known. */
export function busLines(target: Pick<Target, "chip">): ReadonlyMap<string, BusLine> {
  return byChip[target.chip.id] ?? new Map();
}
