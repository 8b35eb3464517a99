/** File, list, page, sketches and settings of the findings agree; each page's two sketches do what they say. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { allFindings } from "../../server/findings/all.js";
import { findingsOf } from "../../server/findings/findings.js";
import { analysedText } from "../runner/analysed-sketch.js";
import { showFinding } from "../runner/check-marks.js";

const root = join(__dirname, "..", "..");
const ids = allFindings.map((rule) => rule.id);

describe("the list of findings", () => {
  it("names every file that holds a rule, once", () => {
    const folder = join(root, "server", "findings");
    const files = readdirSync(folder).filter((name) =>
      /:\s*FindingRule = \{/.test(readFileSync(join(folder, name), "utf8")),
    );
    expect([...ids].sort()).toEqual(files.map((name) => name.replace(/\.ts$/, "")).sort());
    expect(new Set(ids).size).toBe(ids.length);
  });

  it("has a folder of marked sketches for every finding, and none for others", () => {
    const folders = readdirSync(join(root, "test", "findings"), { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map((entry) => entry.name);
    expect(folders.sort()).toEqual([...ids].sort());
    for (const id of ids) {
      expect(
        readdirSync(join(root, "test", "findings", id)).some((name) => name.endsWith(".ino")),
        id,
      ).toBe(true);
    }
  });

  it("keeps to the form of a page", () => {
    for (const rule of allFindings) {
      expect(rule.id).toMatch(/^[a-z]+(-[a-z]+)*$/);
      for (const text of [rule.says, rule.why, rule.whenFine]) expect(text, rule.id).toMatch(/[.?]$/);
      expect(rule.says, rule.id).not.toContain("\n");
      expect(rule.source.length, rule.id).toBeGreaterThan(10);
    }
  });

  it("agrees with the settings in the manifest where they name findings", () => {
    const manifest = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
    const properties = manifest.contributes?.configuration?.properties ?? {};
    const named = Object.keys(properties["pulsewright.findings.severity"]?.properties ?? {});
    if (named.length > 0) expect(named.sort()).toEqual([...ids].sort());
    expect(existsSync(join(root, "docs", "findings.md"))).toBe(true);
  });
});

describe("the two sketches of a page", () => {
  for (const rule of allFindings) {
    it(`${rule.id} fires on the one`, async () => {
      const { analysis } = await analysedText(rule.fires);
      const found = findingsOf(analysis);
      expect(
        found.map((finding) => finding.id),
        found.map((finding) => showFinding(rule.fires, finding)).join("\n"),
      ).toEqual([rule.id]);
    });

    it(`${rule.id} is quiet on the other`, async () => {
      const { analysis } = await analysedText(rule.quiet);
      expect(findingsOf(analysis).map((finding) => showFinding(rule.quiet, finding))).toEqual([]);
    });
  }
});

describe("messages", () => {
  for (const rule of allFindings) {
    it(`${rule.id} says fact and way out in at most two sentences`, async () => {
      const { analysis } = await analysedText(rule.fires);
      for (const { message } of findingsOf(analysis)) {
        const sentences = message.match(/[.?!](?=\s+[A-Z]|$)/g) ?? [];
        expect(sentences.length, message).toBeLessThanOrEqual(2);
        expect(message, message).toMatch(/[.?]$/);
        expect(message.length, message).toBeLessThan(320);
      }
    });
  }
});
