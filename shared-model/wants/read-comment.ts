/**
 * Reads the comments that are addressed to the tool (design section 5): wants, bench readings and settings. Total: any
 * text gives an answer, and only the three openings ever give one that is not empty.
 */
import { type Specification, specifications } from "../specifications.js";
import type { Comment, ReadingComment, SettingsComment, Stretch } from "./comment.js";
import { type Addressed, addressedLines } from "./openings.js";
import { boardPin, isProse } from "./pin-names.js";
import { clean, readMeasured } from "./quantities.js";
import { readWant } from "./read-want.js";
import { Scanner, Unreadable } from "./scanner.js";

/**
 * Everything in one comment's raw text, its `//` or `/*` included, that is addressed to the tool, in order. A line that
 * opens as ours and cannot be read is answered by an `unread` entry; a want for several pins by one entry for each. `known` are the named specifications.
 */
export function readComment(text: string, known: readonly Specification[] = specifications): readonly Comment[] {
  return addressedLines(text).flatMap((line) => {
    try {
      return readLine(text, line, known);
    } catch (problem) {
      if (problem instanceof Unreadable) {
        const column = Math.min(problem.column, line.at.end);
        return [{ kind: "unread" as const, column, expected: problem.expected, at: line.at }];
      }
      throw problem;
    }
  });
}

function readLine(text: string, line: Addressed, known: readonly Specification[]): readonly Comment[] {
  const whole = text.slice(line.at.start, line.at.end);
  const because = line.opening === "settings" && /\ballow\b/.test(whole);
  // A reason may end in a bracket of its own; everywhere else a closing bracket ends a remark.
  const remark = because ? null : trailingRemark(whole);
  const end = remark === null ? line.at.end : line.at.start + remark.start;
  const scanner = new Scanner(text, line.rest, end);
  const extra = remark === null ? {} : { remark: remark.text };
  switch (line.opening) {
    case "want":
      return readWant(scanner, text, line.at, end, extra, known);
    case "reading": {
      const reading = readReading(scanner, text, line.at, end, extra);
      return reading === null ? [] : [reading];
    }
    case "settings":
      return [readSettings(scanner, line.at, extra)];
  }
}

/** The `( … )` that ends the line, brackets inside it included; `start` is where the blanks before it begin. */
function trailingRemark(line: string): { readonly start: number; readonly text: string } | null {
  if (!line.endsWith(")")) {
    return null;
  }
  let depth = 0;
  for (let at = line.length - 1; at >= 0; at--) {
    depth += line[at] === ")" ? 1 : line[at] === "(" ? -1 : 0;
    if (depth === 0) {
      return { start: line.slice(0, at).trimEnd().length, text: line.slice(at + 1, -1).trim() };
    }
  }
  return null;
}

function readReading(
  scanner: Scanner,
  text: string,
  at: Stretch,
  end: number,
  extra: { readonly remark?: string },
): ReadingComment | null {
  const pin = scanner.take(/[A-Za-z_0-9]+/)!;
  const registers: { name: string; value: number; at: Stretch }[] = [];
  const withAt = scanner.takeWord("with");
  // `bench reads well`, `bench reads 5 V`: prose, unless a colon or `with` follows or the name can only be a pin's.
  const surelyPin = boardPin.test(pin.text) && !/^\d+$/.test(pin.text);
  if (!surelyPin && withAt === null && !/^\s*:/.test(text.slice(scanner.at, end))) {
    return null;
  }
  if (isProse([pin.text], text.slice(scanner.at, end))) {
    return null;
  }
  if (withAt !== null) {
    do {
      registers.push(readRegister(scanner));
    } while (scanner.take(/,/) !== null || scanner.takeWord("and") !== null);
  }
  if (scanner.take(/:/) === null) {
    scanner.fail(withAt === null ? "a colon, or with REGISTER = VALUE" : "a colon");
  }
  const written = text.slice(scanner.at, end).trim();
  const found: { -readonly [Key in "frequency" | "duty" | "pulse"]?: ReadingComment[Key] } = {};
  const once = (key: "frequency" | "duty" | "pulse", start: number) => {
    if (found[key] !== undefined) {
      scanner.fail(`one ${key}, not two`, start);
    }
  };
  let first = true;
  while (first || !scanner.atEnd()) {
    if (!first && scanner.take(/,/) === null) {
      scanner.fail("a comma or the end");
    }
    first = false;
    scanner.skipBlanks();
    const start = scanner.at;
    const numeral = scanner.takeNumeral();
    if (numeral !== null) {
      once("frequency", start);
      found.frequency = readMeasured(scanner, "frequency", numeral, start);
    } else if (scanner.takeWord("duty") !== null) {
      once("duty", start);
      found.duty = readMeasured(scanner, "percent", scanner.numeral("a duty such as 50 %"), start);
    } else if (scanner.takeWord("pulse") !== null) {
      once("pulse", start);
      found.pulse = readMeasured(scanner, "time", scanner.numeral("a width such as 1500 us"), start);
    } else {
      scanner.fail("a reading such as 985 Hz, duty 50 % or pulse 1500 us", start);
    }
  }
  return { kind: "reading", pin: pin.text, pinAt: pin.at, registers, ...found, ...extra, text: written, at };
}

function readRegister(scanner: Scanner): { name: string; value: number; at: Stretch } {
  const name = scanner.take(/[A-Za-z][A-Za-z0-9_]*/) ?? scanner.fail("a register's name");
  if (scanner.take(/=/) === null) {
    scanner.fail("= and the register's value");
  }
  const value = scanner.take(/0[xX][0-9A-Fa-f]+|0[bB][01]+|\d+/) ?? scanner.fail("a number such as 0xFE");
  return { name: name.text, value: Number(value.text.toLowerCase()), at: { start: name.at.start, end: value.at.end } };
}

const settingItems = "board, clock, built for, or allow";

function readSettings(scanner: Scanner, at: Stretch, extra: { readonly remark?: string }): SettingsComment {
  const found: { -readonly [Key in keyof SettingsComment]?: SettingsComment[Key] } = {};
  const allow: { id: string; because: string | null; at: Stretch }[] = [];
  const once = (key: "board" | "clockHz" | "builtFor", what: string, start: number) => {
    if (found[key] !== undefined) {
      scanner.fail(`one ${what}, not two`, start);
    }
  };
  let first = true;
  while (first || !scanner.atEnd()) {
    if (!first && scanner.take(/,/) === null) {
      scanner.fail("a comma or the end");
    }
    first = false;
    scanner.skipBlanks();
    const start = scanner.at;
    if (scanner.takeWord("board") !== null) {
      once("board", "board", start);
      const id = scanner.take(/[A-Za-z0-9_.-]+(?::[A-Za-z0-9_.=-]+)*/) ?? scanner.fail("a board such as nano");
      found.board = id.text;
      found.boardAt = id.at;
    } else if (scanner.takeWord("clock") !== null) {
      once("clockHz", "clock", start);
      const clock = readMeasured(scanner, "frequency", scanner.numeral("a clock such as 16 MHz"), start);
      const written = clock.at;
      if (clock.value <= 0) {
        scanner.fail("a clock above 0", start);
      }
      found.clockHz = Math.round(clock.value);
      found.clockAt = written;
      if (clock.stated) {
        found.tolerance = clean(clock.uncertainty / clock.value);
      }
    } else if (scanner.takeWord("built") !== null) {
      once("builtFor", "`built for`", start);
      if (scanner.takeWord("for") === null) {
        scanner.fail("for and a clock such as 8 MHz");
      }
      const built = readMeasured(scanner, "frequency", scanner.numeral("a clock such as 8 MHz"), start);
      found.builtFor = Math.round(built.value);
    } else if (scanner.takeWord("allow") !== null) {
      const ids = [scanner.take(/[a-z0-9][a-z0-9-]*/) ?? scanner.fail("the id of a finding")];
      // `allow kept-bits, bare-number because …`: ids have a dash, the words that begin another item have none.
      while (scanner.take(/,\s*(?=[a-z0-9]+-)/) !== null)
        ids.push(scanner.take(/[a-z0-9][a-z0-9-]*/) ?? scanner.fail("the id of a finding"));
      const because = scanner.takeWord("because") === null ? null : scanner.rest().text;
      if (because === "") {
        scanner.fail("a reason");
      }
      for (const id of ids) allow.push({ id: id.text, because, at: { start, end: scanner.at } });
    } else {
      scanner.fail(settingItems, start);
    }
  }
  return { kind: "settings", ...found, ...(allow.length > 0 ? { allow } : {}), ...extra, at };
}
