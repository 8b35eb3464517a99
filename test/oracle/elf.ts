/** Reads what the simulator needs from an AVR ELF file: the flash image and the symbols. */
import { readFileSync } from "node:fs";

export interface Image {
  /** Flash from address 0. */
  readonly flash: Uint8Array;
  /** Function and label symbols of the program memory, by name → word address. */
  readonly symbols: ReadonlyMap<string, number>;
}

const PT_LOAD = 1;
const SHT_SYMTAB = 2;
/** avr-gcc places data space at this offset of the ELF's single address space. */
const DATA_SPACE = 0x800000;

export function readElf(path: string): Image {
  const bytes = readFileSync(path);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const u16 = (at: number): number => view.getUint16(at, true);
  const u32 = (at: number): number => view.getUint32(at, true);
  if (u32(0) !== 0x464c457f) throw new Error(`${path} is no ELF file`);
  const parts: { address: number; data: Uint8Array }[] = [];
  const programs = u32(28);
  for (let index = 0; index < u16(44); index++) {
    const at = programs + index * u16(42);
    const size = u32(at + 16);
    const address = u32(at + 12);
    if (u32(at) !== PT_LOAD || size === 0 || address >= DATA_SPACE) continue;
    parts.push({ address, data: bytes.subarray(u32(at + 4), u32(at + 4) + size) });
  }
  const flash = new Uint8Array(Math.max(0, ...parts.map(({ address, data }) => address + data.length))).fill(0xff);
  for (const { address, data } of parts) flash.set(data, address);

  const symbols = new Map<string, number>();
  const sections = u32(32);
  for (let index = 0; index < u16(48); index++) {
    const at = sections + index * u16(46);
    if (u32(at + 4) !== SHT_SYMTAB) continue;
    const start = u32(at + 16);
    const names = u32(sections + u32(at + 24) * u16(46) + 16);
    for (let entry = start; entry < start + u32(at + 20); entry += 16) {
      const value = u32(entry + 4);
      if (value >= DATA_SPACE) continue;
      const from = names + u32(entry);
      symbols.set(bytes.toString("latin1", from, bytes.indexOf(0, from)), value >> 1);
    }
  }
  return { flash, symbols };
}
