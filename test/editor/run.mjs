/**
 * The browser suite: the packaged .vsix in a clean profile of a real VS Code, driven through a real browser. A person opens the
 * lamp demo, sees the squiggle, reads a hover and a hint, takes the quick fix, saves; the squiggle goes and the file on disk is
 * another. Writes screenshots; `--picture` renews the README's.
 *
 *   node test/editor/run.mjs [--vsix FILE] [--picture]
 *
 * Ends with `N passed, N failed`.
 */
import { execFileSync } from "node:child_process";
import {
  copyFileSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { install } from "./install.mjs";
import { plans } from "./plan-scenarios.mjs";
import { commands, fan, lamp, restricted } from "./scenarios.mjs";
import { counts, expect } from "./steps.mjs";
import { startVsCode } from "./vscode.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "..", "..");
const screenshots = join(here, "..", ".cache", "screenshots");
const chromium = process.env.CHROMIUM ?? "/usr/bin/chromium";
const picture = process.argv.includes("--picture");

function packaged() {
  const asked = process.argv.indexOf("--vsix");
  if (asked > 0) return process.argv[asked + 1];
  const find = () => readdirSync(root).find((name) => name.endsWith(".vsix"));
  if (find() === undefined) execFileSync("npm", ["run", "package"], { cwd: root, stdio: "inherit" });
  return join(root, find());
}

/**
 * Everything the page asked for that is not on this machine. Web views have host names of their own, which VS Code's service
 * worker answers inside the browser; what it answered left nothing. No other name is even resolved (see the browser's switches).
 */
function watchRequests(page) {
  const strangers = new Set();
  page.on("request", (request) => {
    const url = new URL(request.url());
    const local = ["127.0.0.1", "localhost"].includes(url.hostname) || ["data:", "blob:"].includes(url.protocol);
    if (!local) strangers.add(request.url());
  });
  page.on("response", (response) => {
    if (response.fromServiceWorker()) strangers.delete(response.url());
  });
  return strangers;
}

async function session(theme, work, settings = {}) {
  const { chromium: driver } = await import("playwright-core");
  const place = mkdtempSync(join(tmpdir(), "pulsewright-editor-"));
  const folder = join(place, "sketches");
  mkdirSync(folder);
  for (const demo of ["lamp", "greenhouse-fan"])
    cpSync(join(root, "client", "demo", demo), join(folder, demo), { recursive: true });
  const vscode = await startVsCode(place, packaged(), { "workbench.colorTheme": theme, ...settings });
  const browser = await driver.launchPersistentContext(join(place, "browser"), {
    executablePath: chromium,
    headless: true,
    viewport: { width: 1180, height: 640 },
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
  const page = browser.pages()[0] ?? (await browser.newPage());
  const strangers = watchRequests(page);
  const shot = async (name) => {
    mkdirSync(screenshots, { recursive: true });
    await page.screenshot({ path: join(screenshots, `${name}.png`) });
  };
  try {
    await work({ page, folder, port: vscode.port, shot, strangers });
  } catch (error) {
    await shot("failure").catch(() => undefined);
    writeFileSync(join(screenshots, "server.log"), vscode.log());
    throw error;
  } finally {
    await browser.close();
    await vscode.stop();
    rmSync(place, { recursive: true, force: true });
  }
}

install();
expect(existsSync(chromium), `there is no browser at ${chromium}`);
try {
  await session("Default Dark Modern", lamp);
  await session("Default Light Modern", fan);
  await session("Default Dark Modern", commands);
  await session("Default Light Modern", plans);
  await session("Default Dark Modern", restricted, { "security.workspace.trust.enabled": true });
  if (picture) {
    const target = join(root, "client", "media", "lamp.png");
    copyFileSync(join(screenshots, "lamp-hover.png"), target);
    expect(statSync(target).size < 300_000, "the picture is larger than 300 kB");
  }
} catch {
  // Counted and said where it happened.
}
console.log(`${counts.passed} passed, ${counts.failed} failed`);
process.exitCode = counts.failed === 0 ? 0 : 1;
