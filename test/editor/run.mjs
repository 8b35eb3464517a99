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
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { install } from "./install.mjs";
import { startVsCode } from "./vscode.mjs";
import {
  clickOn,
  command,
  hoverOn,
  openFile,
  openFolder,
  pick,
  quickFixes,
  save,
  shownLines,
  squiggles,
  until,
} from "./workbench.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "..", "..");
const screenshots = join(here, "..", ".cache", "screenshots");
const chromium = process.env.CHROMIUM ?? "/usr/bin/chromium";
const picture = process.argv.includes("--picture");

let passed = 0;
let failed = 0;
async function step(name, work) {
  try {
    await work();
    passed++;
    console.log(`ok      ${name}`);
  } catch (error) {
    failed++;
    console.log(`FAILED  ${name}\n        ${error instanceof Error ? error.message : error}`);
    throw error;
  }
}
function expect(fact, message) {
  if (!fact) throw new Error(message);
}

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

async function session(theme, work) {
  const { chromium: driver } = await import("playwright-core");
  const place = mkdtempSync(join(tmpdir(), "pulsewright-editor-"));
  const folder = join(place, "sketches");
  mkdirSync(folder);
  for (const demo of ["lamp", "greenhouse-fan"])
    cpSync(join(root, "client", "demo", demo), join(folder, demo), { recursive: true });
  const vscode = await startVsCode(place, packaged(), { "workbench.colorTheme": theme });
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

async function lamp({ page, folder, port, shot, strangers }) {
  const file = join(folder, "lamp", "lamp.ino");
  await openFolder(page, port, join(folder, "lamp"));
  await step("the demo opens", () => openFile(page, "lamp.ino"));
  await step("the slip is underlined", () =>
    until(
      "an error squiggle",
      () => squiggles(page, "error"),
      (count) => count >= 1,
      30_000,
    ),
  );
  await step("a hint says what pin 3 puts out", async () => {
    const lines = await until(
      "hints",
      () => shownLines(page),
      (all) => all.some((line) => line.includes("≈")),
    );
    const line = lines.find((text) => text.includes("TCCR2B") && text.includes("≈"));
    expect(line !== undefined && /30\.64/.test(line), `no hint of 30.64 Hz at the write: ${JSON.stringify(lines)}`);
  });
  await step("the hover shows the register, its fields and the arithmetic", async () => {
    const text = await hoverOn(page, "TCCR2B = ", "TCCR2B");
    for (const part of ["30.637", "16 MHz / ", "1024", "TCCR2B"])
      expect(text.includes(part), `"${part}" is not in the hover: ${text}`);
    await shot("lamp-hover");
  });
  await step("a board is named in the language status", async () => {
    await page.mouse.move(5, 5);
    const found = await page.locator("#status\\.languageStatus").count();
    expect(found === 1, "there is no language status item");
  });
  await step("the quick fix comes first among the actions", async () => {
    await clickOn(page, "TCCR2B = ", "|");
    const titles = await quickFixes(page);
    await shot("lamp-fixes");
    expect(titles.length >= 2, `actions: ${JSON.stringify(titles)}`);
    expect(!/allow|what/i.test(titles[0]), `the first action is "${titles[0]}"`);
  });
  await step("taken and saved, it is on disk and the squiggle is gone", async () => {
    const before = readFileSync(file, "utf8");
    await page.keyboard.press("Enter");
    await until(
      "the edited text",
      () => shownLines(page),
      (all) => all.some((line) => /TCCR2B = \(|TCCR2B & /.test(line)),
    );
    await save(page);
    const after = await until(
      "the file on disk",
      () => readFileSync(file, "utf8"),
      (text) => text !== before,
    );
    expect(after.length > before.length / 2 && after.includes("analogWrite"), `the file lost text: ${after}`);
    await until(
      "no error squiggle",
      () => squiggles(page, "error"),
      (count) => count === 0,
      30_000,
    );
    await shot("lamp-fixed");
  });
  await step("no request left the machine", () => expect(strangers.size === 0, [...strangers].join("\n")));
}

async function fan({ page, folder, port, shot, strangers }) {
  await openFolder(page, port, join(folder, "greenhouse-fan"));
  await step("a second sketch, in a light theme, shows its findings", async () => {
    await openFile(page, "greenhouse-fan.ino");
    await until(
      "a warning squiggle",
      () => squiggles(page, "warning"),
      (count) => count >= 1,
      30_000,
    );
    await until(
      "hints",
      () => shownLines(page),
      (all) => all.some((line) => line.includes("≈")),
    );
  });
  await step("half-typed code costs nothing but a moment, and a want typed in is judged", async () => {
    await clickOn(page, "OCR1A = 64", "OCR1A");
    await page.keyboard.press("End");
    await page.keyboard.type("\nOCR1B = (");
    await page.keyboard.press("Control+Home");
    await page.keyboard.type("// wants D9: 5 kHz\n");
    await until(
      "the want's verdict",
      () => squiggles(page, "error"),
      (count) => count >= 1,
      30_000,
    );
  });
  await step("the hover on a pin answers", async () => {
    const text = await hoverOn(page, "OCR1A = map", "OCR1A");
    expect(/25 kHz/.test(text), text);
    await shot("fan-hover-light");
  });
  await step("no request left the machine from there either", () =>
    expect(strangers.size === 0, [...strangers].join("\n")),
  );
}

async function commands({ page, folder, port, shot, strangers }) {
  const file = join(folder, "lamp", "lamp.ino");
  await openFolder(page, port, join(folder, "lamp"));
  await openFile(page, "lamp.ino");
  const underlined = () =>
    until(
      "an error squiggle",
      () => squiggles(page, "error"),
      (count) => count >= 1,
      30_000,
    );
  await underlined();
  await step("the server restarts by hand, and everything is as before, once", async () => {
    const before = await squiggles(page, "error");
    await command(page, "Pulsewright: Restart Server");
    await new Promise((resolve) => setTimeout(resolve, 1_500));
    await until(
      "the squiggles again",
      () => squiggles(page, "error"),
      (count) => count === before,
      30_000,
    );
  });
  await step("the board is chosen from a list and written into the sketch", async () => {
    await clickOn(page, "void loop", "loop");
    await command(page, "Pulsewright: Choose Board");
    await pick(page, "Arduino Mega");
    await pick(page, "In the sketch");
    await until(
      "the comment",
      () => shownLines(page),
      (all) => all[0].startsWith("// for pulsewright: board mega"),
    );
    await save(page);
    await until(
      "the file on disk",
      () => readFileSync(file, "utf8"),
      (text) => text.startsWith("// for pulsewright: board mega"),
    );
  });
  await step("the signal sheet opens beside, for that board", async () => {
    await clickOn(page, "void loop", "loop");
    await command(page, "Pulsewright: Show Signal Sheet");
    await until(
      "the sheet",
      () => shownLines(page),
      (all) => all.some((line) => line.includes("(mega), atmega2560 at 16 MHz")),
    );
    await shot("sheet");
  });
  await step("a demo sketch opens as a copy, with its findings", async () => {
    await command(page, "Pulsewright: Open Demo Sketch");
    await pick(page, "Pump");
    await until(
      "the demo",
      () => shownLines(page),
      (all) => all.some((line) => line.includes("membrane pump")),
    );
    await until(
      "a warning squiggle",
      () => squiggles(page, "warning"),
      (count) => count >= 1,
      30_000,
    );
  });
  await step("a finding's page opens from the quick fixes", async () => {
    await clickOn(page, "TCCR0B = ", "TCCR0B");
    const titles = await quickFixes(page);
    const title = titles.find((each) => /^What "/.test(each));
    expect(title !== undefined, `actions: ${JSON.stringify(titles)}`);
    for (let at = 0; at < titles.indexOf(title); at++) await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await until(
      "the preview",
      () => page.locator(".tab", { hasText: "Preview" }).count(),
      (count) => count >= 1,
    );
    const id = /"(.*)"/.exec(title)[1];
    await until(
      "the page's text",
      async () => {
        const texts = await Promise.all(
          page.frames().map((frame) =>
            frame
              .locator("h1")
              .allInnerTexts()
              .catch(() => []),
          ),
        );
        return texts.flat();
      },
      (headings) => headings.includes(id),
      30_000,
    );
    await shot("finding-page");
  });
  await step("no notification came unasked", async () =>
    expect((await page.locator(".notifications-toasts .notification-toast").count()) === 0, "there is one"),
  );
  await step("no request left the machine all the while", () =>
    expect(strangers.size === 0, [...strangers].join("\n")),
  );
}

install();
expect(existsSync(chromium), `there is no browser at ${chromium}`);
try {
  await session("Default Dark Modern", lamp);
  await session("Default Light Modern", fan);
  await session("Default Dark Modern", commands);
  if (picture) {
    const target = join(root, "client", "media", "lamp.png");
    copyFileSync(join(screenshots, "lamp-hover.png"), target);
    expect(statSync(target).size < 300_000, "the picture is larger than 300 kB");
  }
} catch {
  // Counted and said where it happened.
}
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
