import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { DEFAULT_SETTINGS, settingsFrom } from "../../server/lsp/settings.js";

/** `{ a: { b: 1 } }` → `{ "a.b": 1 }`; tables by name stay whole. */
function flat(value: object, prefix = ""): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, inner]): [string, unknown][] =>
      typeof inner === "object" && inner !== null && !Array.isArray(inner) && Object.keys(inner).length > 0
        ? Object.entries(flat(inner, `${prefix}${key}.`))
        : [[`${prefix}${key}`, inner]],
    ),
  );
}

describe("the settings table", () => {
  it("and package.json say the same", () => {
    const manifest = JSON.parse(readFileSync(join(__dirname, "../../package.json"), "utf8"));
    const properties: Record<string, { default: unknown; scope: string }> =
      manifest.contributes.configuration.properties;
    const contributed = Object.fromEntries(Object.entries(properties).map(([key, { default: value }]) => [key, value]));
    expect(contributed).toEqual(flat(DEFAULT_SETTINGS, "pulsewright."));
    for (const [key, { scope }] of Object.entries(properties)) expect(`${key} ${scope}`).toBe(`${key} resource`);
  });
  it("takes what fits and keeps its defaults for the rest", () => {
    expect(settingsFrom(null)).toEqual(DEFAULT_SETTINGS);
    expect(settingsFrom("nonsense")).toEqual(DEFAULT_SETTINGS);
    expect(settingsFrom({ board: 7, hints: { duty: false }, libraries: ["x", 3], strange: true })).toEqual({
      ...DEFAULT_SETTINGS,
      hints: { ...DEFAULT_SETTINGS.hints, duty: false },
      libraries: ["x"],
    });
    const specifications = { vent: "1 kHz", lamp: { wants: "2 kHz" }, odd: 3 };
    expect(settingsFrom({ specifications }).specifications).toEqual(specifications);
    expect(settingsFrom({ specifications: ["1 kHz"] }).specifications).toEqual({});
    expect(
      settingsFrom({ findings: { severity: { "bare-number": "off", "kept-bits": "loud" } } }).findings.severity,
    ).toEqual({ "bare-number": "off" });
  });
});
