/** How findings are run: order, switches, allowances, limits, failing checks, half-typed sketches. */
import { describe, expect, it } from "vitest";
import { lineOf } from "../../server/edits/source-text.js";
import { hover } from "../../server/features/hover.js";
import { ALL_HINTS, inlayHints } from "../../server/features/inlay-hints.js";
import { allFindings } from "../../server/findings/all.js";
import type { FindingRule } from "../../server/findings/finding.js";
import { findingsOf, runRules } from "../../server/findings/findings.js";
import { Stopped } from "../../server/limits.js";
import { analysedText } from "../runner/analysed-sketch.js";

const slips = `void setup() {
  TCCR2B = 0x03;
  TCCR1B |= _BV(CS10);
}
void loop() { analogWrite(3, 300); analogWrite(9, 60); }
`;

function rule(id: string, check: FindingRule["check"]): FindingRule {
  return { ...allFindings[0]!, id, check };
}

describe("findings", () => {
  it("come in the order of their places", async () => {
    const { analysis } = await analysedText(slips);
    const found = findingsOf(analysis);
    expect(found.map((finding) => finding.id)).toEqual(["bare-number", "kept-bits", "value-does-not-fit"]);
    expect(found.map((finding) => finding.span.start)).toEqual(
      [...found.map((finding) => finding.span.start)].sort((a, b) => a - b),
    );
  });

  it("that are off are not run", async () => {
    const { analysis } = await analysedText(slips);
    let ran = false;
    const spy = rule("spy", () => {
      ran = true;
    });
    expect(runRules([spy], analysis, { off: new Set(["spy"]) })).toEqual([]);
    expect(ran).toBe(false);
  });

  it("take another severity when told to", async () => {
    const { analysis } = await analysedText(slips);
    const found = findingsOf(analysis, { severities: { "bare-number": "error" } });
    expect(found.find((finding) => finding.id === "bare-number")?.severity).toBe("error");
  });

  it("keep the gravest where a file has too many", async () => {
    const { analysis } = await analysedText(slips);
    expect(findingsOf(analysis, { perFile: 1 }).map((finding) => finding.id)).toEqual(["value-does-not-fit"]);
  });

  it("are told once, however often a check reports them", async () => {
    const { analysis } = await analysedText(slips);
    const span = analysis.writes[0]!.span;
    const twice = rule("twice", (_, report) => {
      report({ message: "Again.", span, related: [] });
      report({ message: "Again.", span, related: [] });
    });
    expect(runRules([twice], analysis)).toHaveLength(1);
  });

  it("lose only the check that fails, and are told of it", async () => {
    const { analysis } = await analysedText(slips);
    const failures: string[] = [];
    const failing = rule("failing", () => {
      throw new Error("no");
    });
    const found = runRules([failing, ...allFindings], analysis, { onFailure: (id) => failures.push(id) });
    expect(failures).toEqual(["failing"]);
    expect(found).toHaveLength(3);
  });

  it("let cancellation through", async () => {
    const { analysis } = await analysedText(slips);
    const stopped = rule("stopped", () => {
      throw new Stopped();
    });
    expect(() => runRules([stopped], analysis)).toThrow(Stopped);
  });

  it("are the same for the same text", async () => {
    const first = findingsOf((await analysedText(slips)).analysis);
    const second = findingsOf((await analysedText(slips)).analysis);
    const plain = (found: typeof first) => found.map(({ id, message, span }) => ({ id, message, span }));
    expect(plain(second)).toEqual(plain(first));
  });
});

describe("allow comments", () => {
  const excused = async (text: string) => findingsOf((await analysedText(text)).analysis).map((finding) => finding.id);

  it("excuse their own line", async () => {
    expect(
      await excused(
        "void setup() {\n  TCCR2B = 0x03;  // for pulsewright: allow bare-number\n}\nvoid loop() { analogWrite(3, 1); }\n",
      ),
    ).toEqual([]);
  });

  it("excuse the next statement, past blank lines", async () => {
    expect(
      await excused(
        "void setup() {\n  // for pulsewright: allow bare-number because it is a table\n\n  TCCR2B =\n    0x03;\n}\nvoid loop() { analogWrite(3, 1); }\n",
      ),
    ).toEqual([]);
  });

  it("excuse no later one, and no other finding", async () => {
    expect(
      await excused(
        "void setup() {\n  // for pulsewright: allow bare-number\n  TCCR2B = 0x03;\n  TCCR2B = 0x04;\n}\nvoid loop() { analogWrite(3, 1); }\n",
      ),
    ).toEqual(["bare-number"]);
    expect(
      await excused(
        "void setup() {\n  TCCR2B = 0x03;  // for pulsewright: allow kept-bits\n}\nvoid loop() { analogWrite(3, 1); }\n",
      ),
    ).toEqual(["bare-number"]);
  });
});

describe("allow comments for every finding", () => {
  const left = async (text: string, id: string) =>
    findingsOf((await analysedText(text)).analysis)
      .filter((finding) => finding.id === id)
      .map((finding) => text.slice(finding.span.start, finding.span.end));
  /** A comment that cannot be read is not excused by one. */
  const rules = allFindings.filter((each) => each.id !== "unread-comment");

  for (const each of rules) {
    const places = async () => findingsOf((await analysedText(each.fires)).analysis).map((finding) => finding.span);

    it(`${each.id} on the line above`, async () => {
      for (const span of await places()) {
        const start = lineOf(each.fires, span.start).start;
        const comment = `// for pulsewright: allow ${each.id} because it is meant\n`;
        expect(await left(each.fires.slice(0, start) + comment + each.fires.slice(start), each.id)).toEqual([]);
      }
    });

    it(`${each.id} in a block on the line above, beside another id`, async () => {
      for (const span of await places()) {
        const start = lineOf(each.fires, span.start).start;
        const comment = `/* for pulsewright: allow timer-shared, ${each.id} because it is meant */\n`;
        expect(await left(each.fires.slice(0, start) + comment + each.fires.slice(start), each.id)).toEqual([]);
      }
    });

    it(`${each.id} at the end of its line`, async () => {
      for (const span of await places()) {
        const { end } = lineOf(each.fires, span.start);
        const line = each.fires.slice(lineOf(each.fires, span.start).start, end);
        // A comment goes on to the end of its line: what is beside it can only be in front.
        if (line.includes("//")) continue;
        const comment = `  // for pulsewright: allow ${each.id}, bare-number because it is meant`;
        expect(await left(each.fires.slice(0, end) + comment + each.fires.slice(end), each.id)).toEqual([]);
      }
    });
  }

  it("excuses no other place of the same finding", async () => {
    const text =
      "void setup() {\n  TCCR2B = 0x03;\n  TCCR1B = 0x03;\n}\nvoid loop() { analogWrite(3, 1); analogWrite(9, 1); }\n";
    const excused = text.replace("  TCCR1B", "  /* for pulsewright: allow bare-number */\n  TCCR1B");
    expect(await left(text, "bare-number")).toHaveLength(2);
    expect(await left(excused, "bare-number")).toEqual(["0x03"]);
  });
});

describe("half-typed sketches", () => {
  it("give findings, hovers and hints without a fault at every length", async () => {
    const text = `#include <Servo.h>
// wants D3: 1 kHz within 980..1020 Hz, 200 steps
Servo vent;
void setup() {
  vent.attach(9);
  TCCR2A = _BV(WGM21) | (1 << WGM20);
  TCCR2B = TCCR2B | 3 & 0xFB;  // prescaler 32
  OCR2A = 0xF8;
}
void loop() {
  analogWrite(3, map(analogRead(A0), 0, 1023, 0, 248));
  tone(8, 440);
  delay(10 ^ 3);
}
`;
    const failures: string[] = [];
    for (let length = 0; length <= text.length; length += 5) {
      const part = text.slice(0, length);
      const { analysis } = await analysedText(part);
      findingsOf(analysis, { onFailure: (id, error) => failures.push(`${length} ${id} ${String(error)}`) });
      for (let offset = 0; offset <= part.length; offset += 9) hover(analysis, "sketch.ino", offset);
      inlayHints(analysis, "sketch.ino", { start: 0, end: part.length }, ALL_HINTS);
    }
    expect(failures).toEqual([]);
  });
});
