/** The SARIF log of a run: valid, consistent, and what a good producer sets, on runs of every kind. */
import { readdirSync, readFileSync, symlinkSync } from "node:fs";
import { join, relative } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { allFindings } from "../../server/findings/all.js";
import { retiredNumbers, ruleNumbers } from "../../server/findings/rule-numbers.js";
import { lineHashes } from "../../server/report/fingerprints.js";
import { sarifLog } from "../../server/report/sarif.js";
import type { SarifLog } from "../../server/report/sarif-log.js";
import { run } from "../cli/run-main.js";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { analysedText } from "../runner/analysed-sketch.js";
import { sarifFaults, type Texts, withFix } from "./sarif-faults.js";

afterEach(removeFolders);

interface Logged {
  readonly status: number;
  readonly log: SarifLog;
  readonly run: SarifLog["runs"][number];
  readonly faults: readonly string[];
  readonly out: string;
}

/** Runs over a folder of made files. */
async function logged(files: Readonly<Record<string, string>>, ...words: string[]): Promise<Logged> {
  const folder = folderOf(files);
  const { status, out } = await run("report", "--format", "sarif", ...words, folder);
  const log = JSON.parse(out) as SarifLog;
  const root = rootOf(log, files);
  const texts: Texts = Object.fromEntries(Object.entries(files).map(([path, text]) => [relative(root, path), text]));
  expect(out).not.toContain(folder);
  return { status, log, run: log.runs[0]!, faults: sarifFaults(log, texts), out };
}

/** The made folder holds the sketches alone, so paths count from the deepest one that holds them all. */
function rootOf(log: SarifLog, files: Readonly<Record<string, string>>): string {
  const [first] = log.runs[0]!.artifacts;
  const path =
    first === undefined ? "" : Object.keys(files).find((name) => name.endsWith(decodeURIComponent(first.location.uri)));
  return path === undefined || first === undefined
    ? ""
    : path.slice(0, path.length - decodeURIComponent(first.location.uri).length);
}

const LAMP = `// wants D3: 1 kHz within 980..1020 Hz
void setup() {
  pinMode(3, OUTPUT);
  // Meant: prescaler 32.
  TCCR2B = TCCR2B | 3 & 0xFB;
}
void loop() { analogWrite(3, analogRead(A0) / 4); delay(20); }
`;

describe("a SARIF log", () => {
  it("of the demo sketches is valid, consistent, and the same twice", async () => {
    const demo = join(__dirname, "../../client/demo");
    const texts: Record<string, string> = {};
    for (const name of readdirSync(demo)) {
      const path = `client/demo/${name}/${name}.ino`;
      texts[path] = readFileSync(join(__dirname, "../..", path), "utf8");
    }
    const first = await run("report", "--format", "sarif", demo);
    const log = JSON.parse(first.out) as SarifLog;
    expect(sarifFaults(log, texts)).toEqual([]);
    expect(log.runs[0]!.artifacts.map(({ location }) => location.uri)).toEqual(Object.keys(texts).sort());
    expect(first).toMatchObject({ status: 1, complaints: [] });
    expect((await run("report", "--format", "sarif", demo)).out).toBe(first.out);
    expect(first.out).not.toMatch(/"(?:\/|[A-Z]:\\)|TimeUtc"|undefined/);
  });

  it("says the rule, the place and the way out", async () => {
    const { run: made, faults, status } = await logged({ "lamp/lamp.ino": LAMP });
    expect(faults).toEqual([]);
    expect(status).toBe(1);
    expect(made.results.map(({ ruleId, level }) => `${ruleId} ${level}`)).toEqual([
      "PW1028 warning",
      "PW1001 error",
      "PW1007 error",
    ]);
    const [, off, order] = made.results;
    expect(off?.message.text).toBe(
      "D3 puts out 30.6373 Hz, outside the wanted 980..1020 Hz. Prescaler 32 gives 980.392 Hz. See [wanted here](1).",
    );
    expect(order?.message.text).toMatch(/^C works out '&' before '\|': /);
    expect(order?.message.markdown).toMatch(/^C works out `&` before `\|`: /);
    expect(order?.locations[0]?.physicalLocation).toEqual({
      artifactLocation: { uri: "lamp.ino", uriBaseId: "%SRCROOT%", index: 0 },
      region: { startLine: 5, startColumn: 12, endLine: 5, endColumn: 29, charOffset: 113, charLength: 17 },
    });
    expect(made.tool.driver.rules).toHaveLength(allFindings.length);
    expect(made.tool.driver.rules[5]).toMatchObject({
      id: "PW1006",
      name: "DutyPastTop",
      defaultConfiguration: { level: "warning" },
      properties: { precision: "high", "problem.severity": "warning" },
    });
    expect(made.columnKind).toBe("utf16CodeUnits");
    expect(made.automationDetails.id).toBe("pulsewright/");
    expect(made.invocations[0]).toMatchObject({ executionSuccessful: true, exitCode: 1 });
  });

  it("where one rule fires many times: one descriptor, each result told apart", async () => {
    const writes = Array.from({ length: 25 }, (_, at) => `  TCCR2B = ${(at % 3) + 2}; delay(9);`).join("\n");
    const { run: made, faults } = await logged({ "many.ino": `void setup() {\n${writes}\n}\nvoid loop() {}\n` });
    expect(faults).toEqual([]);
    const same = made.results.filter(({ ruleId }) => ruleId === "PW1022");
    expect(same.length).toBeGreaterThan(20);
    expect(new Set(same.map(({ ruleIndex }) => ruleIndex)).size).toBe(1);
  });

  it("where nothing fires: an empty list, not none", async () => {
    const { run: made, faults, status } = await logged({ "idle.ino": "void setup() {}\nvoid loop() {}\n" });
    expect([faults, status]).toEqual([[], 0]);
    expect(made.results).toEqual([]);
    expect(made.invocations[0]).toMatchObject({
      executionSuccessful: true,
      exitCode: 0,
      toolExecutionNotifications: [],
    });
  });

  it("where a part was not followed: the result may be incomplete, and the place is told", async () => {
    const text = "extern void listen();\nvoid setup() { listen(); }\nvoid loop() { analogWrite(3, 90); }\n";
    const { run: made, faults } = await logged({ "deaf.ino": text });
    expect(faults).toEqual([]);
    const [invocation] = made.invocations;
    expect(invocation?.executionSuccessful).toBe(true);
    expect(invocation?.toolExecutionNotifications[0]).toMatchObject({
      descriptor: { id: "PW9001", index: 0 },
      level: "error",
      locations: [{ physicalLocation: { region: { startLine: 2 } } }],
    });
  });

  it("where the analysis was given up: not successful, and said so", async () => {
    const { analysis } = await analysedText("void setup() {}\nvoid loop() {}\n");
    const log = sarifLog({
      sketches: [
        {
          analysis,
          findings: [],
          allowed: [],
          proved: new Map(),
          untried: 2,
          unread: [],
          failures: [
            { reason: "the analysis took longer than 60 s and was given up", span: null, affects: ["everything"] },
          ],
        },
      ],
      uriOf: (path) => path,
      root: "Here.",
      complaints: [],
      exitCode: 0,
      version: "1.2.3",
      category: "uno",
    });
    expect(sarifFaults(log, {})).toEqual([]);
    const [made] = log.runs;
    expect(made?.automationDetails.id).toBe("pulsewright/uno/");
    expect(made?.invocations[0]?.executionSuccessful).toBe(false);
    expect(
      made?.invocations[0]?.toolExecutionNotifications.map(({ level, message }) => `${level}: ${message.text}`),
    ).toEqual([
      "error: the analysis took longer than 60 s and was given up. It touches everything.",
      "note: 2 fixes were not tried and are left out.",
    ]);
  });

  it("where a path cannot be read: still a log on stdout, the complaint in it", async () => {
    const folder = folderOf({ "lamp.ino": LAMP });
    const ran = await run("report", "--format", "sarif", join(folder, "lamp.ino"), join(folder, "gone.ino"));
    const log = JSON.parse(ran.out) as SarifLog;
    expect(sarifFaults(log, { "lamp.ino": LAMP })).toEqual([]);
    expect(ran.status).toBe(2);
    expect(ran.complaints).toHaveLength(1);
    expect(log.runs[0]!.invocations[0]).toMatchObject({
      executionSuccessful: false,
      exitCode: 2,
      toolConfigurationNotifications: [{ message: { text: "gone.ino: there is no such file or folder." } }],
    });
    const nothing = await run("report", "--format", "sarif", join(folder, "gone.ino"));
    expect(sarifFaults(JSON.parse(nothing.out) as SarifLog, {})).toEqual([]);
    expect(nothing.out).not.toContain(folder);
  });

  it.each([
    ["CRLF", LAMP.replaceAll("\n", "\r\n")],
    ["a lone CR", LAMP.replaceAll("\n", "\r")],
    [
      "letters of two bytes and characters of two units before the place",
      LAMP.replace("TCCR2B =", "/* größe 🌶 名 */ TCCR2B ="),
    ],
    ["a byte order mark", `\ufeff${LAMP}`],
    [
      "a byte order mark and the finding on the first line",
      "\ufeffvoid setup() { TCCR2B = 7; } void loop() { analogWrite(3, 9); }",
    ],
  ])("counts lines and columns right with %s", async (_, text) => {
    const { run: made, faults } = await logged({ "lamp.ino": text });
    expect(faults).toEqual([]);
    expect(made.results.length).toBeGreaterThan(0);
  });

  it("writes paths percent-encoded from a root; what lies outside is not placed", async () => {
    const files = {
      "my sketches/größe #1/größe #1.ino": `#include "knob.h"\n${LAMP}`,
      "my sketches/größe #1/knob.h": "#define KNOB A0\n",
      "my sketches/fan/fan.ino": LAMP,
    };
    const { run: made, faults } = await logged(files);
    expect(faults).toEqual([]);
    expect(made.artifacts.map(({ location }) => location.uri)).toContain(
      "gr%C3%B6%C3%9Fe%20%231/gr%C3%B6%C3%9Fe%20%231.ino",
    );
    const folder = folderOf({
      "lib/Knob/Knob.h": "inline void turn() { TCCR2B = 7; }\n",
      "fan/fan.ino": `#include <Knob.h>\n${LAMP}`,
    });
    symlinkSync(join(folder, "fan"), join(folder, "link"));
    const ran = await run(
      "report",
      "--format",
      "sarif",
      "--libraries",
      join(folder, "lib"),
      join(folder, "link", "fan.ino"),
    );
    const log = JSON.parse(ran.out) as SarifLog;
    expect(sarifFaults(log, { "fan.ino": `#include <Knob.h>\n${LAMP}` })).toEqual([]);
    expect(log.runs[0]!.artifacts.map(({ location }) => location.uri)).toEqual(["fan.ino"]);
  });

  it("lists what a comment allows only when asked, as suppressed with its reason", async () => {
    const text =
      "void setup() {\n  TCCR2B = 7; // for pulsewright: allow bare-number because the table says so\n}\nvoid loop() { analogWrite(3, 9); }\n";
    expect((await logged({ "a.ino": text })).run.results).toEqual([]);
    const { run: made, faults, status } = await logged({ "a.ino": text }, "--allowed", "--fail-on", "note");
    expect([faults, status]).toEqual([[], 0]);
    expect(made.results.map(({ ruleId, suppressions }) => [ruleId, suppressions])).toEqual([
      ["PW1022", [{ kind: "inSource", status: "accepted", justification: "the table says so" }]],
    ]);
  });

  it("tells a finding again when lines move, other code comes, and blanks change", async () => {
    const prints = async (text: string): Promise<unknown> =>
      (await logged({ "lamp.ino": text })).run.results.map(({ ruleId, partialFingerprints }) => [
        ruleId,
        partialFingerprints["pulsewright/timerState/v1"],
      ]);
    const before = await prints(LAMP);
    expect(await prints(`// A lamp.\n\n${LAMP}`)).toEqual(before);
    expect(await prints(LAMP.replace("delay(20)", "delay(21)"))).toEqual(before);
    expect(await prints(LAMP.replace("TCCR2B = TCCR2B | 3", "TCCR2B  =  TCCR2B|3"))).toEqual(before);
    expect(await prints(LAMP.replace("| 3 &", "| 2 &"))).not.toEqual(before);
  });

  it("offers fixes that, made by what the log says alone, take the finding away", async () => {
    let fixes = 0;
    for (const rule of allFindings) {
      const { run: made, faults } = await logged({ "s.ino": rule.fires });
      expect(faults, rule.id).toEqual([]);
      for (const result of made.results) {
        for (const fix of result.fixes ?? []) {
          const text = withFix(fix, "s.ino", rule.fires);
          const count = (run: SarifLog["runs"][number]): number =>
            run.results.filter(({ ruleId }) => ruleId === result.ruleId).length;
          const after = await logged({ "s.ino": text });
          expect(count(after.run), `${rule.id}: ${fix.description.text}`).toBeLessThan(count(made));
          fixes++;
        }
      }
    }
    expect(fixes).toBeGreaterThan(10);
  }, 60_000);
});

describe("rule ids", () => {
  it("every finding has one, and none is given twice or anew", () => {
    expect(Object.keys(ruleNumbers).sort()).toEqual(allFindings.map(({ id }) => id).sort());
    const numbers = [...Object.values(ruleNumbers), ...retiredNumbers];
    expect(new Set(numbers).size).toBe(numbers.length);
    // The first version's numbers: they stay, whatever comes.
    const first =
      "off-frequency thin-margin duty-out-of-want short-of-reach coarse-duty duty-past-top and-before-or kept-bits half-a-mode top-takes-pin no-top-yet not-an-output not-connected time-base-moved timer-shared spike-at-zero value-does-not-fit duty-wraps mode-ignores-write never-matches wrong-register-bit bare-number wiped-by-core pin-without-timer odd-operator no-effect timer-off comment-disagrees one-count-off core-not-started byte-order idle-timer reading-disagrees unread-comment";
    first.split(" ").forEach((id, at) => {
      expect(ruleNumbers[id] ?? (retiredNumbers.includes(1001 + at) ? 1001 + at : undefined), id).toBe(1001 + at);
    });
  });
});

describe("the hash of a line", () => {
  // The values that the consumers' own test has, from memory.
  it.each([
    ["", ["c129715d7a2bc9a3:1"]],
    [" a\nb\n  \t\tc\n d", ["271789c17abda88f:1", "54703d4cd895b18:1", "180aee12dab6264:1", "a23a3dc5e078b07b:1"]],
    [
      " hello; \t\nworld!!!\n\n\n  \t\tGreetings\n End",
      [
        "8b7cf3e952e7aeb2:1",
        "b1ae1287ec4718d9:1",
        "bff680108adb0fcc:1",
        "c6805c5e1288b612:1",
        "b86d3392aea1be30:1",
        "e6ceba753e1a442:1",
      ],
    ],
  ])("of %j", (text, hashes) => expect([...lineHashes(text).values()]).toEqual(hashes));
  it("does not care how lines end", () => {
    expect([...lineHashes(LAMP.replaceAll("\n", "\r\n")).values()]).toEqual([...lineHashes(LAMP).values()]);
  });
});

describe("the checks themselves", () => {
  type Loose = { runs: Record<string, never>[] };
  const spoilt: readonly (readonly [string, (log: Loose) => void])[] = [
    ["a wrong index", (log) => void Object.assign(log.runs[0]!["results"]![0]!, { ruleIndex: 0 })],
    ["a column of 0", (log) => void Object.assign(regionIn(log), { startColumn: 0 })],
    ["a column one off", (log) => void Object.assign(regionIn(log), { startColumn: 4 })],
    ["a field that SARIF does not have", (log) => void Object.assign(log.runs[0]!, { colour: "red" })],
    ["no tool", (log) => void Reflect.deleteProperty(log.runs[0]!, "tool")],
    ["a level that is none", (log) => void Object.assign(log.runs[0]!["results"]![0]!, { level: "info" })],
    ["a rule twice", (log) => void rulesIn(log).splice(1, 1, rulesIn(log)[0])],
    ["an empty fix", (log) => void Object.assign(log.runs[0]!["results"]![0]!, { fixes: [{ artifactChanges: [] }] })],
    ["an absolute path", (log) => void Object.assign(artifactIn(log), { uri: "/srv/lamp.ino" })],
    ["a path with a blank", (log) => void Object.assign(artifactIn(log), { uri: "my lamp.ino" })],
  ];
  // biome-ignore lint/suspicious/noExplicitAny: a spoilt log has no type.
  const first = (log: Loose): any => (log.runs[0] as any).results[0].locations[0].physicalLocation;
  const regionIn = (log: Loose): object => first(log).region;
  const artifactIn = (log: Loose): object => first(log).artifactLocation;
  // biome-ignore lint/suspicious/noExplicitAny: the same.
  const rulesIn = (log: Loose): unknown[] => (log.runs[0] as any).tool.driver.rules;
  it.each(spoilt)("see %s", async (_, spoil) => {
    const { log } = await logged({ "lamp.ino": LAMP });
    expect(sarifFaults(log, { "lamp.ino": LAMP })).toEqual([]);
    const copy = JSON.parse(JSON.stringify(log)) as Loose;
    spoil(copy);
    expect(sarifFaults(copy as unknown as SarifLog, { "lamp.ino": LAMP })).not.toEqual([]);
  });
});
