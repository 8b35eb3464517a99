/** Reads one want (`wants D9 and D10: 25 kHz, duty 20..100 %`); the opening is found by `openings.ts`. */
import { editDistance } from "../edit-distance.js";
import { findSpecification, type Specification } from "../specifications.js";
import type { Stretch, WantComment, WantedFilter } from "./comment.js";
import { isProse } from "./pin-names.js";
import { readFrequency, readPart, readPeriod, readShare, readWidth, readWithin } from "./quantities.js";
import type { Scanner } from "./scanner.js";

type Found = { -readonly [Key in keyof WantComment]?: WantComment[Key] };
type Item = "frequency" | "duty" | "reach" | "pulse" | "steps" | "idle" | "specification";

const wantItems =
  "a frequency such as 1 kHz, duty, reach, pulse, every, a number of steps, idle low or high, or a named specification";
const keywords = ["duty", "reach", "pulse", "every", "within", "idle"];

/** One entry for each pin; none where the line is prose. */
export function readWant(
  scanner: Scanner,
  text: string,
  at: Stretch,
  end: number,
  extra: { readonly remark?: string },
  known: readonly Specification[],
): readonly WantComment[] {
  const pins = readPins(scanner, text, end);
  const written = text.slice(scanner.at, end).trim();
  const ids = known.map((specification) => specification.id);
  const names = pins.map((pin) => pin.text);
  if (isProse(names, written, ids)) {
    return [];
  }
  const found = readItems(scanner, text, end, known);
  const specification = found.specification === undefined ? undefined : findSpecification(found.specification, known);
  return pins.map((pin) => ({
    kind: "want",
    pin: pin.text,
    pinAt: pin.at,
    together: names,
    ...specifiedParts(specification, at),
    ...found,
    ...extra,
    text: written,
    at,
  }));
}

function readPins(scanner: Scanner, text: string, end: number): { readonly text: string; readonly at: Stretch }[] {
  const pins = [];
  const seen = new Set<string>();
  for (;;) {
    const pin = scanner.take(/[A-Za-z_0-9]+(?:::[A-Za-z_0-9]+)*/) ?? scanner.fail("a pin");
    const same = pin.text.replace(/^D(?=\d)/i, "");
    // Prose may say a word twice; then it is no pin's name.
    if (seen.has(same) && /\d/.test(same)) {
      scanner.fail("another pin: this one stands there already", pin.at.start);
    }
    seen.add(same);
    pins.push(pin);
    if (scanner.take(/:/) !== null) {
      return pins;
    }
    const comma = scanner.take(/,/) !== null;
    if (scanner.takeWord("and") === null && !comma) {
      scanner.fail(
        /^[ \t]*\w/.test(text.slice(scanner.at, end))
          ? "and or a comma between pins, or a colon"
          : "and, a comma or a colon",
      );
    }
  }
}

function readItems(scanner: Scanner, text: string, end: number, known: readonly Specification[]): Found {
  const found: Found = {};
  const once = (key: Item, start: number) => {
    if (found[key] !== undefined) {
      scanner.fail(`${key === "specification" ? "one named specification" : `one ${key}`}, not two`, start);
    }
  };
  let first = true;
  while (first || !scanner.atEnd()) {
    if (!first && scanner.take(/,/) === null && !/^every\b/i.test(text.slice(scanner.at, end))) {
      scanner.fail("a comma or the end");
    }
    first = false;
    scanner.skipBlanks();
    const start = scanner.at;
    const numeral = scanner.takeNumeral();
    if (numeral !== null) {
      if (scanner.takeWord("steps?") !== null) {
        once("steps", start);
        if (!Number.isInteger(numeral.value) || numeral.value < 1) {
          scanner.fail("a whole number of steps", start);
        }
        found.steps = { steps: numeral.value, at: { start, end: scanner.at } };
      } else {
        once("frequency", start);
        found.frequency = readFrequency(scanner, numeral);
      }
    } else if (scanner.takeWord("within") !== null) {
      once("frequency", start);
      found.frequency = readWithin(scanner, start);
    } else if (scanner.takeWord("every") !== null) {
      once("frequency", start);
      found.frequency = readPeriod(scanner, start);
    } else if (scanner.takeWord("duty") !== null) {
      once("duty", start);
      found.duty = readShare(scanner, start);
    } else if (scanner.takeWord("reach") !== null) {
      once("reach", start);
      found.reach = readShare(scanner, start);
    } else if (scanner.takeWord("pulse") !== null) {
      once("pulse", start);
      found.pulse = readWidth(scanner, start);
    } else if (scanner.takeWord("idle") !== null) {
      once("idle", start);
      const level = scanner.takeWord("low") !== null ? "low" : scanner.takeWord("high") !== null ? "high" : null;
      found.idle = { level: level ?? scanner.fail("low or high"), at: { start, end: scanner.at } };
    } else {
      const word = scanner.take(/[A-Za-z][A-Za-z0-9-]*/);
      const specification = word === null ? undefined : findSpecification(word.text, known);
      if (word === null || specification === undefined) {
        return scanner.fail(word === null ? wantItems : unknownWord(word.text, known), start);
      }
      if (specification.broken !== undefined) {
        scanner.fail(
          `a specification that can be read: ${specification.id} stands in the settings, but ${specification.broken}`,
          start,
        );
      }
      once("specification", start);
      found.specification = specification.id;
      const filter = readFilter(scanner, specification, start);
      if (filter !== null) {
        found.filter = filter;
      }
    }
  }
  return found;
}

/** `with R = 10 kOhm, C = 10 uF` behind a specification that takes a filter; both parts, in either order. */
function readFilter(scanner: Scanner, specification: Specification, start: number): WantedFilter | null {
  const withAt = scanner.takeWord("with");
  if (withAt === null) {
    return null;
  }
  if (specification.takesFilter !== true) {
    return scanner.fail(`a comma or the end: ${specification.id} takes no R and C`, withAt.start);
  }
  let ohms: number | null = null;
  let farads: number | null = null;
  while (ohms === null || farads === null) {
    if (ohms !== null || farads !== null) {
      const comma = scanner.take(/,/) !== null;
      if (scanner.takeWord("and") === null && !comma) {
        scanner.fail(ohms === null ? "and R = a resistance such as 10 kOhm" : "and C = a capacitance such as 10 uF");
      }
    }
    if (ohms === null && scanner.takeWord("R") !== null) {
      takeEquals(scanner, "10 kOhm");
      ohms = readPart(scanner, "resistance", "a resistance such as 10 kOhm");
    } else if (farads === null && scanner.takeWord("C") !== null) {
      takeEquals(scanner, "10 uF");
      farads = readPart(scanner, "capacitance", "a capacitance such as 10 uF");
    } else {
      const missing = [...(ohms === null ? ["R = 10 kOhm"] : []), ...(farads === null ? ["C = 10 uF"] : [])];
      scanner.fail(`the filter's parts, such as ${missing.join(", ")}`);
    }
  }
  return { ohms, farads, at: { start, end: scanner.at } };
}

function takeEquals(scanner: Scanner, example: string): void {
  if (scanner.take(/=/) === null) {
    scanner.fail(`= and a value such as ${example}`);
  }
}

/** What a named specification asks for, as if it stood in the want; what is written beside it goes before. */
function specifiedParts(specification: Specification | undefined, at: Stretch): Partial<WantComment> {
  if (specification === undefined) {
    return {};
  }
  const { frequency, duty, reach, pulse, steps, idle, filter } = specification;
  return {
    ...(frequency === undefined ? {} : { frequency: { ...frequency, at } }),
    ...(duty === undefined ? {} : { duty: { ...duty, at } }),
    ...(reach === undefined ? {} : { reach: { ...reach, at } }),
    ...(pulse === undefined ? {} : { pulse: { ...pulse, at } }),
    ...(steps === undefined ? {} : { steps: { steps, at } }),
    ...(idle === undefined ? {} : { idle: { level: idle, at } }),
    ...(filter === undefined ? {} : { filter: { ...filter, at } }),
  };
}

function unknownWord(word: string, known: readonly Specification[]): string {
  const lower = word.toLowerCase();
  const near = keywords.find((keyword) => editDistance(keyword, lower) <= 1) ?? nearSpecification(lower, known);
  return near === undefined ? wantItems : `${wantItems}; did you mean ${near}?`;
}

function nearSpecification(word: string, known: readonly Specification[]): string | undefined {
  const ids = known.map((specification) => specification.id);
  return (
    ids.find((id) => id.toLowerCase() === word) ??
    ids.find((id) => editDistance(id.toLowerCase(), word) <= 2) ??
    ids.find((id) => id.startsWith(word.slice(0, 3)) || (word.length > 2 && id.includes(word)))
  );
}
