/** What people do in the editor, and what they must then see. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, step } from "./steps.mjs";
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

export async function lamp({ page, folder, port, shot, strangers }) {
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

export async function fan({ page, folder, port, shot, strangers }) {
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

export async function commands({ page, folder, port, shot, strangers }) {
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

export async function restricted({ page, folder, port, shot }) {
  await page.goto(`http://127.0.0.1:${port}/?folder=${encodeURI(join(folder, "lamp"))}`);
  await step("in a folder that is not trusted", async () => {
    await page.getByRole("button", { name: /No, I don't trust/ }).click({ timeout: 60_000 });
    await until(
      "the banner",
      () => page.locator(".part.banner", { hasText: "Restricted Mode" }).count(),
      (count) => count === 1,
    );
  });
  await step("everything is said all the same, since nothing is run", async () => {
    await openFile(page, "lamp.ino");
    await until(
      "an error squiggle",
      () => squiggles(page, "error"),
      (count) => count >= 1,
      30_000,
    );
    await until(
      "hints",
      () => shownLines(page),
      (all) => all.some((line) => line.includes("≈")),
    );
    await shot("restricted");
  });
}
