/** Takes a .vsix (a zip file) apart with nothing but Node. Enough for archives of our own making: stored and deflated entries. */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { inflateRawSync } from "node:zlib";

const CENTRAL = 0x02014b50;
const END = 0x06054b50;

/** Writes every entry below `folder`; gives their names. */
export function unzip(file, folder) {
  const bytes = readFileSync(file);
  let end = bytes.length - 22;
  while (end >= 0 && bytes.readUInt32LE(end) !== END) end--;
  if (end < 0) throw new Error(`${file} is no zip file`);
  const names = [];
  let at = bytes.readUInt32LE(end + 16);
  for (let left = bytes.readUInt16LE(end + 10); left > 0; left--) {
    if (bytes.readUInt32LE(at) !== CENTRAL) throw new Error("bad central directory");
    const method = bytes.readUInt16LE(at + 10);
    const size = bytes.readUInt32LE(at + 20);
    const lengths = [28, 30, 32].map((offset) => bytes.readUInt16LE(at + offset));
    const local = bytes.readUInt32LE(at + 42);
    const name = bytes.toString("utf8", at + 46, at + 46 + lengths[0]);
    const start = local + 30 + bytes.readUInt16LE(local + 26) + bytes.readUInt16LE(local + 28);
    const packed = bytes.subarray(start, start + size);
    if (!name.endsWith("/")) {
      mkdirSync(dirname(join(folder, name)), { recursive: true });
      writeFileSync(join(folder, name), method === 0 ? packed : inflateRawSync(packed));
      names.push(name);
    }
    at += 46 + lengths[0] + lengths[1] + lengths[2];
  }
  return names;
}
