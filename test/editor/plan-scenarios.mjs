/** From a want to the signal: a plan taken as a quick fix, another planned from the palette, and the sheet of both. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, step } from "./steps.mjs";
import {
  clickOn,
  command,
  openFile,
  openFolder,
  pick,
  quickFixes,
  save,
  shownLines,
  squiggles,
  until,
} from "./workbench.mjs";

export async function plans({ page, folder, port, shot, strangers }) {
  const file = join(folder, "lamp", "lamp.ino");
  const onDisk = (what, fits) => until(what, () => readFileSync(file, "utf8"), fits, 30_000);
  await openFolder(page, port, join(folder, "lamp"));
  await openFile(page, "lamp.ino");
  await step("on a want, the best plan stands among the quick fixes, with its costs", async () => {
    await until(
      "an error squiggle",
      () => squiggles(page, "error"),
      (count) => count >= 1,
      30_000,
    );
    await clickOn(page, "wants D3", "wants");
    const titles = await quickFixes(page);
    await shot("plan-fixes");
    const plan = titles.findIndex((title) => /Set timer 2 for 1 kHz on D3/.test(title));
    expect(plan >= 0, `actions: ${JSON.stringify(titles)}`);
    expect(/TOP 250/.test(titles[plan]) && /251 steps/.test(titles[plan]), titles[plan]);
    for (let at = 0; at < plan; at++) await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await until(
      "the edited text",
      () => shownLines(page),
      (lines) => lines.some((line) => line.includes("OCR2A = 250")),
      30_000,
    );
    await shot("plan-taken");
  });
  await step("saved, the want is met and nothing is underlined as an error", async () => {
    await save(page);
    await onDisk("the plan on disk", (text) => text.includes("OCR2A = 250") && text.includes("analogWrite"));
    await until(
      "no error squiggle",
      () => squiggles(page, "error"),
      (count) => count === 0,
      30_000,
    );
  });
  await step("one undo takes the whole plan back", async () => {
    await clickOn(page, "void setup", "setup");
    await page.keyboard.press("Control+Z");
    await until(
      "the text as it was",
      () => shownLines(page),
      (lines) => lines.every((line) => !line.includes("OCR2A = 250")),
    );
    await page.keyboard.press("Control+Shift+Z");
    await until(
      "the plan again",
      () => shownLines(page),
      (lines) => lines.some((line) => line.includes("OCR2A = 250")),
    );
  });
  await step("a signal is planned from the palette: pin, want, way", async () => {
    await clickOn(page, "void setup", "setup");
    await command(page, "Pulsewright: Plan a Signal");
    await pick(page, "D9");
    await page.locator(".quick-input-box input").first().waitFor();
    await page.keyboard.type("25 kz");
    await until(
      "what is wrong with the want",
      () => page.locator(".quick-input-message").allInnerTexts(),
      (texts) => texts.join("").includes("Column"),
    );
    await shot("plan-want-unread");
    for (let at = 0; at < 2; at++) await page.keyboard.press("Backspace");
    await page.keyboard.type("kHz within 21..28 kHz");
    await page.keyboard.press("Enter");
    await until(
      "the plans",
      () => page.locator(".quick-input-list .monaco-list-row").allInnerTexts(),
      (rows) => rows.some((row) => row.includes("25 kHz on D9")),
      30_000,
    );
    await shot("plan-choices");
    await page.keyboard.press("Enter");
    await until(
      "the want and its code",
      () => shownLines(page),
      (lines) =>
        lines.some((line) => line.includes("wants D9: 25 kHz within 21..28 kHz")) &&
        lines.some((line) => line.includes("ICR1 = ")),
      30_000,
    );
    await shot("plan-second");
    await save(page);
    await onDisk("both on disk", (text) => text.includes("wants D9") && text.includes("ICR1 = "));
  });
  await step("the duty curve opens beside the sketch, as picture and numbers", async () => {
    await clickOn(page, "void loop", "loop");
    for (const key of ["ArrowDown", "Home"]) await page.keyboard.press(key);
    await command(page, "Pulsewright: Show Duty Curve");
    await until(
      "the curve",
      () => framesText(page),
      (text) => /duty steps are used/.test(text) && text.includes("written"),
      30_000,
    );
    await shot("duty-curve");
    await page.keyboard.press("Control+1");
  });
  await step("the sheet for printing opens as a page", async () => {
    await clickOn(page, "void setup", "setup");
    await command(page, "Pulsewright: Preview Signal Sheet");
    await until(
      "the preview",
      () => page.locator(".tab", { hasText: "Preview" }).count(),
      (count) => count >= 1,
      30_000,
    );
    await until(
      "its text",
      () => framesText(page),
      (text) => text.includes("Signal sheet: lamp.ino") && text.includes("25 kHz"),
      30_000,
    );
    await shot("sheet-preview");
  });
  await step("no request left the machine while planning", () =>
    expect(strangers.size === 0, [...strangers].join("\n")),
  );
}

/** What web views show, all together. */
async function framesText(page) {
  const texts = page.frames().map((frame) =>
    frame
      .locator("body")
      .textContent()
      .catch(() => ""),
  );
  return (await Promise.all(texts)).join("\n");
}
