// Measures the facts that the tables of shared-model are compared with: registers, bits and vectors from avr-libc's
// headers (through avr-gcc's preprocessor, definitions kept in order), pins and boards from the packaged core.
//
//   node test/shared-model/facts/measure.mjs           writes the .json files beside this script
//   node test/shared-model/facts/measure.mjs --check   measures again and exits 1 when a file differs (CI)
//
// Needs the Debian packages gcc-avr, avr-libc and arduino-core-avr. It must not read anything of shared-model.
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const core = "/usr/share/arduino/hardware/arduino/avr";
const chips = ["atmega328p", "atmega168p", "atmega168", "atmega2560", "atmega1280"];
const boards = ["uno", "nano", "pro", "mini", "diecimila", "mega", "megaADK"];

function packageVersion(name) {
  try {
    const [line = ""] = execFileSync("dpkg", ["-l", name], { encoding: "utf8" })
      .split("\n")
      .filter((text) => text.startsWith("ii"));
    return `${name} ${line.split(/\s+/)[2]}`;
  } catch {
    return `${name} (version not known)`;
  }
}

/** Every `#define` of the device's headers, in order, with the header's file name. */
function definitions(chip) {
  const text = execFileSync("avr-gcc", [`-mmcu=${chip}`, "-E", "-dD", "-x", "c", "-"], {
    input: "#include <avr/io.h>\n",
    encoding: "utf8",
    maxBuffer: 1 << 26,
  });
  const found = [];
  let file = "";
  for (const line of text.split("\n")) {
    const marker = /^# \d+ "([^"]*)"/.exec(line);
    if (marker) {
      file = marker[1].split("/").pop();
      continue;
    }
    const define = /^#define ([A-Za-z_]\w*) (.*)$/.exec(line);
    if (define) {
      found.push({ file, name: define[1], body: define[2].replace(/\/\*.*?\*\//g, "").trim() });
    }
  }
  return found;
}

function chipFacts(chip) {
  const all = definitions(chip);
  const registers = [];
  const bits = [];
  const vectors = [];
  const generic = [];
  const memory = {};
  let current = [];
  let lastWasRegister = false;
  for (const { file, name, body } of all) {
    const device = /^iom/.test(file);
    const register = /^_SFR_(IO|MEM)(8|16) ?\((0[xX][0-9A-Fa-f]+)\)$/.exec(body);
    if (register && (device || file === "common.h")) {
      const address = Number(register[3]) + (register[1] === "IO" ? 0x20 : 0);
      const width = Number(register[2]);
      registers.push({ name, address, width });
      if (width === 8) {
        // Registers that follow one another directly and share an address share the bits that come after (OCDR, MONDR).
        const shares = lastWasRegister && current.length > 0 && current[0].address === address;
        current = shares ? [...current, { name, address }] : [{ name, address }];
        lastWasRegister = true;
      }
      continue;
    }
    const small = /^\(?([0-7])\)?$/.exec(body);
    if (
      device &&
      small &&
      !/_vect_num$|^FUSE|^SIGNATURE|^SLEEP|^E2PAGESIZE|^XRAMSIZE|^_AVR|^__/.test(name) &&
      current.length > 0
    ) {
      lastWasRegister = false;
      for (const owner of current) {
        bits.push({ register: owner.name, name, position: Number(small[1]) });
      }
      continue;
    }
    if (file === "common.h" && small && /^SREG_/.test(name)) {
      bits.push({ register: "SREG", name, position: Number(small[1]) });
      continue;
    }
    if (file === "portpins.h" && (small || /^P(ORT)?[A-L][0-7]$/.test(body))) {
      const port = /^P(?:ORT)?([A-L])([0-7])$/.exec(name);
      if (port) {
        bits.push({ register: `PORT${port[1]}`, name, position: Number(port[2]) });
      } else if (small && /^(PORT|DD|PIN)[0-7]$/.test(name)) {
        generic.push({ name, position: Number(small[1]) });
      }
      continue;
    }
    const vector = /^_VECTOR\((\d+)\)$/.exec(body);
    if (device && vector && /_vect$/.test(name)) {
      vectors.push({ name: name.replace(/_vect$/, ""), number: Number(vector[1]) });
      continue;
    }
    if (device && /^(RAMSTART|RAMEND|FLASHEND|E2END)$/.test(name)) {
      memory[name] = Number(body.replace(/[()UL]/g, ""));
    }
  }
  const predefined = execFileSync("avr-gcc", [`-mmcu=${chip}`, "-E", "-dM", "-x", "c", "-"], {
    input: "",
    encoding: "utf8",
  });
  const macro = /#define (__AVR_AT\w+__) 1/.exec(predefined)?.[1];
  return {
    provenance: {
      packages: [packageVersion("gcc-avr"), packageVersion("avr-libc")],
      made: `avr-gcc -mmcu=${chip} -E -dD on "#include <avr/io.h>"; bits belong to the register defined before them`,
      script: "test/shared-model/facts/measure.mjs",
    },
    chip,
    macro,
    registers,
    bits,
    generic,
    vectors,
    memory,
  };
}

/** The lines `board.key=value` of the packaged core's board list. */
function boardLines(board) {
  return readFileSync(join(core, "boards.txt"), "utf8")
    .split("\n")
    .map((line) => /^([^#=]+?)=(.*)$/.exec(line.trim()))
    .filter((match) => match?.[1].startsWith(`${board}.`))
    .map((match) => [match[1].slice(board.length + 1), match[2]]);
}

function boardFacts(board) {
  const lines = boardLines(board);
  const get = (key) => lines.find(([name]) => name === key)?.[1];
  const options = [];
  for (const [key, value] of lines) {
    const option = /^menu\.cpu\.([^.]+)$/.exec(key);
    if (option) {
      options.push({
        option: option[1],
        title: value,
        mcu: get(`${key}.build.mcu`),
        fCpu: Number.parseInt(get(`${key}.build.f_cpu`) ?? get("build.f_cpu"), 10),
        macro: `ARDUINO_${get(`${key}.build.board`) ?? get("build.board")}`,
      });
    }
  }
  if (options.length === 0) {
    options.push({
      option: null,
      title: null,
      mcu: get("build.mcu"),
      fCpu: Number.parseInt(get("build.f_cpu"), 10),
      macro: `ARDUINO_${get("build.board")}`,
    });
  }
  const variant = get("build.variant");
  return { board, name: get("name"), variant, options, pins: options.map((option) => pinFacts(variant, option.mcu)) };
}

/**
 * What a variant's pins file says for one chip. The file is compiled for the chip as the core compiles it, so that
 * its own #if lines decide, and the tables are read back from the object file.
 */
function pinFacts(variant, mcu) {
  const include = [`-I${join(core, "cores/arduino")}`, `-I${join(core, "variants", variant)}`];
  const source = "#define ARDUINO_MAIN\n#include <Arduino.h>\n";
  const text = execFileSync(
    "avr-gcc",
    [`-mmcu=${mcu}`, "-Os", "-DF_CPU=16000000L", "-E", "-dD", ...include, "-x", "c++", "-"],
    {
      input: source,
      encoding: "utf8",
      maxBuffer: 1 << 26,
      stdio: ["pipe", "pipe", "ignore"],
    },
  );
  const define = (name) => new RegExp(`^#define ${name}\\s+\\(?(\\w+)\\)?`, "m").exec(text)?.[1];
  const defines = [...text.matchAll(/^#define (\w+)\s+\(?(\d+)\)?$/gm)].map((match) => [match[1], Number(match[2])]);
  const byName = new Map(defines);
  const table = (name) =>
    new RegExp(`${name}\\[\\][^=]*=\\s*\\{([^}]*)\\}`)
      .exec(text)?.[1]
      .split("\n")
      .filter((line) => !line.startsWith("#"))
      .join(" ")
      .split(",")
      .map((item) => item.trim())
      .filter((item) => item !== "");
  const ports = table("digital_pin_to_port_PGM").map(Number);
  const masks = table("digital_pin_to_bit_mask_PGM").map((item) => Number(/<<\s*\(?\s*(\d)/.exec(item)?.[1]));
  const timers = table("digital_pin_to_timer_PGM").map(Number);
  const timerNames = new Map(
    defines.filter(([name]) => /^(NOT_ON_TIMER|TIMER\d[A-D]?)$/.test(name)).map(([name, value]) => [value, name]),
  );
  const constants = {};
  for (const match of text.matchAll(/static const uint8_t (\w+) = \(?(\d+)\)?;/g)) {
    constants[match[1]] = Number(match[2]);
  }
  constants.LED_BUILTIN = byName.get("LED_BUILTIN");
  // digitalPinToInterrupt and analogInputToDigitalPin are expressions: they are evaluated by running them through a
  // constant expression of the compiler, one per pin.
  const count = Number(define("NUM_DIGITAL_PINS"));
  const probe = [
    source,
    "const int interrupts[] __attribute__((used)) = {",
    Array.from({ length: count }, (_, pin) => `digitalPinToInterrupt(${pin})`).join(","),
    "};\nconst int channels[] __attribute__((used)) = {",
    Array.from(
      { length: Number(define("NUM_ANALOG_INPUTS")) },
      (_, channel) => `analogInputToDigitalPin(${channel})`,
    ).join(","),
    "};\n",
  ].join("\n");
  const assembly = execFileSync(
    "avr-gcc",
    [`-mmcu=${mcu}`, "-Os", "-DF_CPU=16000000L", "-S", "-o", "-", ...include, "-x", "c++", "-"],
    {
      input: probe,
      encoding: "utf8",
      maxBuffer: 1 << 26,
      stdio: ["pipe", "pipe", "ignore"],
    },
  );
  const words = (name) => {
    const lines = assembly.split("\n");
    const start = lines.findIndex((line) => new RegExp(`^_?(ZL\\d+)?${name}:`).test(line));
    const found = [];
    for (let at = start + 1; at < lines.length && /^\s*\.word/.test(lines[at]); at++) {
      found.push((Number(lines[at].trim().split(/\s+/)[1]) << 16) >> 16);
    }
    return found;
  };
  const interruptByPin = words("interrupts");
  const interruptPins = [];
  for (const [pin, number] of interruptByPin.entries()) {
    if (number >= 0) {
      interruptPins[number] = pin;
    }
  }
  return {
    mcu,
    pins: ports.map((port, number) => ({
      number,
      port: `P${String.fromCharCode(64 + port)}${masks[number]}`,
      timer: timerNames.get(timers[number]),
    })),
    analog: words("channels"),
    constants,
    interruptPins,
  };
}

const files = new Map();
for (const chip of chips) {
  files.set(`${chip}.json`, chipFacts(chip));
}
files.set("boards.json", {
  provenance: {
    packages: [packageVersion("arduino-core-avr"), packageVersion("gcc-avr")],
    made: "boards.txt read line by line; variants/*/pins_arduino.h run through avr-g++ for each board's chip",
    script: "test/shared-model/facts/measure.mjs",
  },
  boards: boards.map(boardFacts),
});

/** One line per row: small to review, small to diff. */
function print(value) {
  return `${JSON.stringify(value, null, 2).replace(/\{\n\s+("(?:name|register|number|option)"[^{}[\]]*?)\n\s+\}/g, (_, inner) => `{ ${inner.replace(/\s*\n\s*/g, " ")} }`)}\n`;
}

let different = 0;
for (const [name, value] of files) {
  const path = join(here, name);
  const text = print(value);
  if (process.argv.includes("--check")) {
    const before = existsSync(path)
      ? JSON.stringify({ ...JSON.parse(readFileSync(path, "utf8")), provenance: null })
      : "";
    if (before !== JSON.stringify({ ...value, provenance: null })) {
      process.stderr.write(`${name} differs from what is measured here\n`);
      different++;
    }
  } else {
    writeFileSync(path, text);
  }
}
if (!process.argv.includes("--check")) {
  // The formatter has the last word on layout, so that a fresh measurement differs only where a fact does.
  execFileSync("npx", ["biome", "format", "--write", here], { stdio: "ignore" });
}
process.exitCode = different > 0 ? 1 : 0;
