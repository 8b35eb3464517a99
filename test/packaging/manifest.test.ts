/** The extension's manifest against what is really there. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

const root = join(__dirname, "../..");
const manifest = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
const client = readdirSync(join(root, "client"))
  .filter((name) => name.endsWith(".ts"))
  .map((name) => readFileSync(join(root, "client", name), "utf8"))
  .join("\n");

describe("the manifest", () => {
  it("names only commands that the client registers, and the client registers no hidden ones but the page of a finding", () => {
    const contributed: string[] = manifest.contributes.commands.map((command: { command: string }) => command.command);
    const registered = [...client.matchAll(/registerCommand\(\s*"([^"]+)"/g)].map((match) => match[1]);
    expect([...registered].sort()).toEqual([...contributed].sort());
    expect(client).toContain("registerCommand(EXPLAIN_FINDING_COMMAND");
    const inMenus: string[] = manifest.contributes.menus.commandPalette.map(
      (entry: { command: string }) => entry.command,
    );
    for (const command of inMenus) expect(contributed).toContain(command);
  });
  it("leads to files that are there, in walkthrough and icon", () => {
    const walkthroughs: { icon: string; steps: { media: { markdown: string }; description: string }[] }[] =
      manifest.contributes.walkthroughs;
    const paths = [
      manifest.icon,
      ...walkthroughs.flatMap((each) => [each.icon, ...each.steps.map((step) => step.media.markdown)]),
    ];
    for (const path of paths) expect(`${path} ${existsSync(join(root, path))}`).toBe(`${path} true`);
    const linked = walkthroughs.flatMap((each) =>
      each.steps.flatMap((step) => [...step.description.matchAll(/command:([\w.]+)/g)].map((match) => match[1])),
    );
    for (const command of linked) expect(client).toContain(`"${command}"`);
  });
  it("offers exactly the demo sketches that come along", () => {
    const offered = [...client.matchAll(/\{ name: "([\w-]+)", label:/g)].map((match) => match[1]);
    const there = readdirSync(join(root, "client/demo"));
    expect([...offered].sort()).toEqual([...there].sort());
    for (const name of there) expect(existsSync(join(root, "client/demo", name, `${name}.ino`))).toBe(true);
  });
  it("starts nothing before a sketch or a C++ file is open", () => {
    expect(
      manifest.activationEvents.filter(
        (event: string) => !/^(?:workspaceContains:\*\*\/\*\.(?:ino|pde)|onLanguage:(?:arduino|cpp|c))$/.test(event),
      ),
    ).toEqual([]);
    expect(manifest.contributes.languages).toBeUndefined();
  });
  it("pins every package, and the editor's types to the oldest editor that is served", () => {
    for (const [name, version] of Object.entries({ ...manifest.dependencies, ...manifest.devDependencies })) {
      expect(`${name} ${version}`).toMatch(/ \d+\.\d+\.\d+$/);
    }
    expect(`^${manifest.devDependencies["@types/vscode"]}`).toBe(manifest.engines.vscode);
  });
  it("works in a workspace that is not trusted, without its paths", () => {
    expect(manifest.capabilities.untrustedWorkspaces).toEqual({
      supported: true,
      restrictedConfigurations: ["pulsewright.libraries", "pulsewright.core"],
    });
  });
});

describe("the lock files", () => {
  it.each(["package-lock.json", "test/editor/package-lock.json"])("%s holds no registry address", (path) => {
    expect(readFileSync(join(root, path), "utf8")).not.toContain('"resolved": "http');
  });
});
