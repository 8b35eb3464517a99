/** Named specifications of a user's own: what they come to, and what is said of those that cannot be read. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { specifications } from "../../../shared-model/specifications.js";
import { readOwnSpecifications } from "../../../shared-model/wants/own-specifications.js";
import { readComment } from "../../../shared-model/wants/read-comment.js";

describe("what is read", () => {
  it("a want as text", () => {
    const { specifications: own, problems } = readOwnSpecifications({
      vent: "1 kHz +-2 %, duty 0..100 %, 200 steps, idle low",
    });
    expect(problems).toEqual([]);
    expect(own).toEqual([
      {
        id: "vent",
        name: "vent",
        frequency: { hz: 1000, min: 980, max: 1020 },
        duty: { min: 0, max: 1 },
        steps: 200,
        idle: "low",
        source: "the workspace's own settings",
      },
    ]);
  });

  it("an object with words of its own", () => {
    const [own] = readOwnSpecifications({
      pump: { wants: "pulse 1..2 ms every 20 ms", name: "pond pump", source: "its data sheet", caution: "keep it wet" },
    }).specifications;
    expect(own).toMatchObject({ name: "pond pump", source: "its data sheet", caution: "keep it wet" });
    expect(own?.pulse).toEqual({ min: 0.001, max: 0.002 });
    expect(own?.frequency).toEqual({ hz: 50, min: 49.5, max: 50.5 });
  });

  it("one that builds on a named one, with its source and caution", () => {
    const [fan, tank] = readOwnSpecifications({
      "my-fan": "fan-4wire, duty 20..100 %",
      tank: "heater-slow, idle low",
    }).specifications;
    expect(fan?.frequency).toEqual({ hz: 25_000, min: 21_000, max: 28_000 });
    expect(fan?.source).toContain("after fan-4wire: 4-Wire");
    expect(tank?.caution).toContain("licensed");
  });

  it("a filter's parts, and leave to give them", () => {
    const own = readOwnSpecifications({
      dial: "analog-rc with R = 10 kOhm, C = 1 uF",
      meter: "analog-rc, 62.5 kHz",
    }).specifications;
    const known = [...specifications, ...own];
    const [dial] = readComment("// wants D9: dial", known);
    expect(dial).toMatchObject({ kind: "want", filter: { ohms: 10_000, farads: 0.000001 } });
    const [meter] = readComment("// wants D9: meter with R = 1 kOhm, C = 10 nF", known);
    expect(meter).toMatchObject({ kind: "want", specification: "meter", filter: { ohms: 1000, farads: 1e-8 } });
  });
});

describe("what is wrong is said with the entry's name", () => {
  it.each([
    [{ vent: "1 kHz +- 2" }, "vent", "not understood from column 11 of its want on", "a tolerance's unit"],
    [{ vent: "" }, "vent", "column 1 ", "a frequency such as 1 kHz"],
    [{ vent: "1 kHz,\n2 steps" }, "vent", "several lines", ""],
    [{ vent: 1000 }, "vent", 'must be a want such as "1 kHz', ""],
    [{ vent: null }, "vent", "must be a want", ""],
    [{ vent: ["1 kHz"] }, "vent", "must be a want", ""],
    [{ vent: {} }, "vent", 'has no "wants"', ""],
    [{ vent: { wants: 3 } }, "vent", "has a wants that is no text", ""],
    [{ vent: { wants: "1 kHz", hz: "2" } }, "vent", 'has "hz", which is none of', ""],
    [{ "my fan": "1 kHz" }, "my fan", "is no name that a want can use", ""],
    [{ "4wire": "1 kHz" }, "4wire", "is no name that a want can use", ""],
    [{ duty: "1 kHz" }, "duty", "is a word of the want's own grammar", ""],
    [{ "fan-4wire": "1 kHz" }, "fan-4wire", "is there already", ""],
    [["1 kHz"], "pulsewright.specifications", "must be a table", ""],
    ["1 kHz", "pulsewright.specifications", "must be a table", ""],
  ])("%j", (entries, name, what, more) => {
    const { problems } = readOwnSpecifications(entries);
    expect(problems).toHaveLength(1);
    for (const words of [name, what, more]) expect(problems[0]).toContain(words);
  });

  it("and to whoever asks for it; the others stand", () => {
    const { specifications: own } = readOwnSpecifications({ vent: "1 kHzz", lamp: "2 kHz" });
    const known = [...specifications, ...own];
    const [vent] = readComment("// wants D9: vent", known);
    expect(vent).toMatchObject({ kind: "unread", column: 13 });
    expect(vent?.kind === "unread" && vent.expected).toContain("vent stands in the settings, but it is not understood");
    expect(readComment("// wants D9: lamp", known)[0]).toMatchObject({ kind: "want", specification: "lamp" });
  });

  it("nothing at all is no problem", () => {
    expect(readOwnSpecifications(undefined)).toEqual({ specifications: [], problems: [] });
    expect(readOwnSpecifications({})).toEqual({ specifications: [], problems: [] });
  });

  it("never throws", () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.anything(), fc.dictionary(fc.string(), fc.oneof(fc.string(), fc.anything()))),
        (entries) => {
          const { specifications: own, problems } = readOwnSpecifications(entries);
          for (const each of own) expect(readComment(`// wants D9: ${each.id}`, own)).toHaveLength(1);
          for (const problem of problems) expect(problem).toContain("pulsewright.specifications");
        },
      ),
    );
  });
});
