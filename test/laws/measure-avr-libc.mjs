/**
 * Measures avr-libc's float functions: compiles avr-libc-floats.c with avr-gcc, runs it in a CPU simulator and writes
 * avr-libc-floats.json. With --check it only compares. Needs avr-gcc; `npm test` reads the recorded file and does not.
 *
 *   node test/laws/measure-avr-libc.mjs [--check]
 */

import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import avr from "avr8js";

const ROWS = 200;
const COLUMNS = (
  "a b add sub mul div sqrt floor ceil trunc round fabs square sin cos tan asin acos atan exp log log10 sinh cosh tanh " +
  "cbrt fmod atan2 pow hypot"
).split(" ");

const UCSR0A = 0xc0;
const UDR0 = 0xc6;
const READY = 0x20;

const here = dirname(fileURLToPath(import.meta.url));
const recorded = join(here, "avr-libc-floats.json");

function compiled() {
  const folder = mkdtempSync(join(tmpdir(), "pulsewright-floats-"));
  try {
    const elf = join(folder, "floats.elf");
    const bin = join(folder, "floats.bin");
    const source = join(here, "avr-libc-floats.c");
    execFileSync("avr-gcc", ["-mmcu=atmega328p", "-Os", `-DROWS=${ROWS}`, source, "-o", elf, "-lm"]);
    execFileSync("avr-objcopy", ["-O", "binary", elf, bin]);
    return readFileSync(bin);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function run(image) {
  const flash = new Uint8Array(0x8000);
  flash.set(image);
  const cpu = new avr.CPU(new Uint16Array(flash.buffer));
  const bytes = [];
  cpu.readHooks[UCSR0A] = () => READY;
  cpu.writeHooks[UDR0] = (value) => {
    bytes.push(value);
    return true;
  };
  const wanted = ROWS * COLUMNS.length * 4;
  for (let steps = 0; bytes.length < wanted; steps++) {
    if (steps > 2e9) throw new Error("the program does not end");
    avr.avrInstruction(cpu);
  }
  return Buffer.from(bytes);
}

const output = run(compiled());
const rows = [];
for (let row = 0; row < ROWS; row++) {
  const words = COLUMNS.map((_, at) => output.readUInt32LE((row * COLUMNS.length + at) * 4).toString(16));
  rows.push(words.join(" "));
}
const text = `${JSON.stringify(
  {
    source: "measured: avr-libc 2.0.0, avr-gcc 5.4.0, atmega328p, run in a CPU simulator by measure-avr-libc.mjs",
    columns: COLUMNS,
    rows,
  },
  null,
  2,
)}\n`;

if (process.argv.includes("--check")) {
  const same = JSON.stringify(JSON.parse(readFileSync(recorded, "utf8")).rows) === JSON.stringify(rows);
  console.log(same ? "avr-libc answers as recorded" : "avr-libc answers differently from avr-libc-floats.json");
  process.exitCode = same ? 0 : 1;
} else {
  writeFileSync(recorded, text);
}
