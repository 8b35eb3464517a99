/** The compiler's own preprocessor, asked through its command line. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

export const CORE = "/usr/share/arduino/hardware/arduino/avr";

export const hasCompiler = spawnSync("avr-gcc", ["--version"]).status === 0;

/** What `avr-gcc -E` prints for the text; undefined where it reports an error. */
export function compilerExpands(text: string, flags: readonly string[] = []): string | undefined {
  const folder = mkdtempSync(join(tmpdir(), "preprocess-"));
  try {
    const path = join(folder, "plain.cpp");
    writeFileSync(path, text);
    const chip = flags.some((flag) => flag.startsWith("-mmcu=")) ? [] : ["-mmcu=atmega328p"];
    const all = ["-E", "-P", "-w", "-x", "c++", "-std=gnu++11", ...chip, ...flags, path];
    const run = spawnSync("avr-gcc", all, { encoding: "utf8", maxBuffer: 1 << 26 });
    if (process.env["SHOW"]) console.log(run.stderr.slice(0, 1500));
    return run.status === 0 ? run.stdout : undefined;
  } finally {
    rmSync(folder, { recursive: true });
  }
}
