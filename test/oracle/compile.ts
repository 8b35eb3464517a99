/**
 * Compiles sketches with avr-gcc and the packaged core, the core once per board (kept in test/.cache). Without
 * link-time optimisation, so that `setup` and `loop` stay visible as symbols.
 */
import { execFile } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { basename, extname, join } from "node:path";
import { promisify } from "node:util";
import { ATMEGA328P, ATMEGA2560, type ChipMap } from "./chip-map.js";
import { type Image, readElf } from "./elf.js";
import { layoutOf } from "./layout.js";
import { prepareSketch } from "./prototypes.js";

const run = promisify(execFile);

export type BoardId = "uno" | "nano" | "mega";

interface BoardBuild {
  readonly map: ChipMap;
  readonly variant: string;
  readonly macro: string;
}

/** From the packaged core's boards.txt. */
const BOARDS: Record<BoardId, BoardBuild> = {
  uno: { map: ATMEGA328P, variant: "standard", macro: "ARDUINO_AVR_UNO" },
  nano: { map: ATMEGA328P, variant: "eightanaloginputs", macro: "ARDUINO_AVR_NANO" },
  mega: { map: ATMEGA2560, variant: "mega", macro: "ARDUINO_AVR_MEGA2560" },
};

export class CompileError extends Error {}

export function chipOf(board: BoardId): ChipMap {
  return BOARDS[board].map;
}

/** The packaged core's folder: PULSEWRIGHT_AVR_CORE or where the distributions put it. */
export function coreFolder(): string {
  const asked = process.env["PULSEWRIGHT_AVR_CORE"];
  const usual = [
    ...(asked === undefined ? [] : [asked]),
    "/usr/share/arduino/hardware/arduino/avr",
    "/usr/local/share/arduino/hardware/arduino/avr",
    "/opt/arduino/hardware/arduino/avr",
  ];
  const found = usual.find((folder) => existsSync(join(folder, "cores/arduino/Arduino.h")));
  if (found === undefined) throw new CompileError(`no packaged core found; looked in ${usual.join(", ")}`);
  return found;
}

/** The checkout's root: the nearest folder above the working directory whose package is ours. */
export function projectRoot(): string {
  for (let folder = process.cwd(); ; folder = join(folder, "..")) {
    const manifest = join(folder, "package.json");
    if (existsSync(manifest) && JSON.parse(readFileSync(manifest, "utf8")).name === "pulsewright") return folder;
    if (folder === join(folder, "..")) throw new Error("run this from inside the checkout");
  }
}

export function cacheFolder(...parts: string[]): string {
  const folder = join(projectRoot(), "test/.cache", ...parts);
  mkdirSync(folder, { recursive: true });
  return folder;
}

function flags(board: BoardId): string[] {
  const { map, variant, macro } = BOARDS[board];
  const core = coreFolder();
  return [
    ...["-Os", "-ffunction-sections", "-fdata-sections", `-mmcu=${map.mcu}`],
    ...["-DF_CPU=16000000L", "-DARDUINO=10819", `-D${macro}`, "-DARDUINO_ARCH_AVR", "-DDECIMAL_DIG=__DECIMAL_DIG__"],
    ...[`-I${join(core, "cores/arduino")}`, `-I${join(core, "variants", variant)}`],
  ];
}

const CPP = ["-std=gnu++11", "-fpermissive", "-fno-exceptions", "-fno-threadsafe-statics", "-Wno-error=narrowing"];

const SILENT = ["-w"];
/** What the compiler sees of undefined behaviour: a shrunk sketch must not owe its failure to that. */
const UNDEFINED = [
  ...["uninitialized", "maybe-uninitialized", "return-type", "sequence-point", "div-by-zero", "array-bounds"],
  ...["shift-count-overflow", "shift-count-negative", "aggressive-loop-optimizations", "strict-overflow=1"],
].map((warning) => `-Werror=${warning}`);

const cores = new Map<BoardId, Promise<string>>();

/** The core's archive for a board, compiled on first use. */
export function coreArchive(board: BoardId): Promise<string> {
  const known = cores.get(board);
  if (known !== undefined) return known;
  const made = buildCore(board);
  cores.set(board, made);
  return made;
}

async function buildCore(board: BoardId): Promise<string> {
  const source = join(coreFolder(), "cores/arduino");
  const options = flags(board);
  const version = await run("avr-gcc", ["-dumpversion"]).catch(() => {
    throw new CompileError("avr-gcc is not installed (packages gcc-avr, avr-libc, arduino-core-avr)");
  });
  const key = createHash("sha256")
    .update(`${version.stdout}${options.join(" ")}`)
    .digest("hex")
    .slice(0, 12);
  const folder = cacheFolder("core");
  const archive = join(folder, `${board}-${key}.a`);
  if (existsSync(archive)) return archive;
  const work = join(folder, `${board}-${key}-${process.pid}`);
  mkdirSync(work, { recursive: true });
  const objects: string[] = [];
  const files = readdirSync(source).filter((file) => [".c", ".cpp", ".S"].includes(extname(file)));
  const compileOne = async (file: string): Promise<void> => {
    const object = join(work, `${file}.o`);
    const language =
      extname(file) === ".cpp" ? CPP : extname(file) === ".c" ? ["-std=gnu11"] : ["-x", "assembler-with-cpp"];
    const compiler = extname(file) === ".cpp" ? "avr-g++" : "avr-gcc";
    await run(compiler, ["-c", ...language, ...options, ...SILENT, join(source, file), "-o", object]);
    objects.push(object);
  };
  const queue = [...files];
  const worker = async (): Promise<void> => {
    for (let file = queue.shift(); file !== undefined; file = queue.shift()) await compileOne(file);
  };
  await Promise.all([worker(), worker()]);
  await run("avr-ar", ["rcs", join(work, "core.a"), ...objects.sort()]);
  renameSync(join(work, "core.a"), archive);
  rmSync(work, { recursive: true, force: true });
  return archive;
}

/** A sketch's file, or the folder of one; `text` overrides what is on disk. */
export interface SketchSource {
  readonly path: string;
  readonly text?: string;
  /** Refuses what the compiler sees of undefined behaviour. */
  readonly strict?: boolean;
}

/** Compiles one sketch. Throws CompileError with the compiler's own words. */
export async function compileSketch(sketch: SketchSource, board: BoardId): Promise<Image> {
  const archive = await coreArchive(board);
  const folder = cacheFolder("build");
  const text = sketch.text ?? readSketch(sketch.path);
  const id = createHash("sha256").update(`${board}\0${archive}\0${text}`).digest("hex").slice(0, 16);
  const isC = extname(sketch.path) === ".c";
  const code = join(folder, `${id}.${isC ? "c" : "cpp"}`);
  const elf = join(folder, `${id}-${process.pid}.elf`);
  const plain = isC || extname(sketch.path) === ".cpp";
  writeFileSync(code, plain ? text : prepareSketch(text, basename(sketch.path)).text);
  try {
    const strict = sketch.strict === true;
    const language = isC ? ["-std=gnu11"] : strict ? CPP.filter((flag) => flag !== "-fpermissive") : CPP;
    const { includes, units } = layoutOf(sketch.path, coreFolder());
    const linked = units.flatMap((unit) => {
      if (unit === null) return isC ? [code] : ["-x", "c++", code];
      return ["-x", extname(unit) === ".c" ? "c" : "c++", unit];
    });
    await run(isC ? "avr-gcc" : "avr-g++", [
      ...language,
      ...flags(board),
      ...(strict ? UNDEFINED : SILENT),
      ...includes.map((folder) => `-I${folder}`),
      "-Wl,--gc-sections",
      ...linked,
      ...["-x", "none", archive, "-lm", "-o", elf],
    ]);
    return readElf(elf);
  } catch (error) {
    const { stderr } = error as { stderr?: string };
    throw new CompileError(`${sketch.path}: ${(stderr ?? String(error)).trim().split("\n").slice(0, 6).join("\n")}`);
  } finally {
    rmSync(elf, { force: true });
    rmSync(code, { force: true });
  }
}

/** The sketch's text: of a folder, the .ino named for it first, then the others by name, as the build joins them. */
export function readSketch(path: string): string {
  if (statSync(path).isFile()) return readFileSync(path, "utf8");
  const main = `${basename(path)}.ino`;
  const tabs = readdirSync(path).filter((file) => file.endsWith(".ino"));
  const ordered = [...tabs.filter((file) => file === main), ...tabs.filter((file) => file !== main).sort()];
  return ordered.map((file) => readFileSync(join(path, file), "utf8")).join("\n");
}
