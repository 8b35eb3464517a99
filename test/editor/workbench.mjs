/** What a person does and sees in the workbench, in terms of its page. */

const EDITOR = ".editor-instance";

/** `page` at `http://127.0.0.1:PORT/?folder=…`, loaded and past any trust question. */
export async function openFolder(page, port, folder) {
  await page.goto(`http://127.0.0.1:${port}/?folder=${encodeURI(folder)}`);
  await page.waitForSelector(".monaco-workbench", { timeout: 60_000 });
  await page.waitForSelector(".explorer-folders-view .monaco-list-row", { timeout: 60_000 });
  const trust = page.locator(".monaco-dialog-box .monaco-button").first();
  if (await trust.isVisible().catch(() => false)) await trust.click();
}

export async function openFile(page, name) {
  await page.locator(".explorer-folders-view .monaco-list-row", { hasText: name }).first().dblclick();
  await page.waitForSelector(`${EDITOR} .view-line`, { timeout: 30_000 });
}

/** Lines as they are shown, top to bottom: hints are part of the text, no-break spaces become blanks. */
export async function shownLines(page) {
  return page.$$eval(`${EDITOR} .view-lines .view-line`, (lines) =>
    lines
      .map((line) => ({
        top: Number.parseFloat(line.style.top),
        text: (line.textContent ?? "").replaceAll("\u00a0", " "),
      }))
      .sort((a, b) => a.top - b.top)
      .map((line) => line.text),
  );
}

/** Asks until `fits` holds; throws with the last answer where it never does. */
export async function until(what, ask, fits, milliseconds = 20_000) {
  const end = Date.now() + milliseconds;
  let last;
  while (Date.now() < end) {
    last = await ask();
    if (fits(last)) return last;
    await new Promise((resolve) => setTimeout(resolve, 150));
  }
  throw new Error(`${what}: gave up after ${milliseconds} ms; last seen: ${String(JSON.stringify(last)).slice(-600)}`);
}

/** How many squiggles of a kind (`error`, `warning`, `info`) the editor shows. */
export function squiggles(page, kind) {
  return page.locator(`${EDITOR} .view-overlays .squiggly-${kind}`).count();
}

/** Rests the mouse on a word; gives the hover's text. Moves away first, since an open hover swallows the mouse. */
export async function hoverOn(page, lineText, word) {
  await page.mouse.move(5, 5);
  await until(
    "the last hover goes",
    () => page.locator(".monaco-resizable-hover .monaco-hover:not(.hidden)").count(),
    (count) => count === 0,
  );
  const box = await placeOf(page, lineText, word);
  await page.mouse.move(box.x - 3, box.y);
  await page.mouse.move(box.x, box.y, { steps: 4 });
  return until(
    `hover on ${word}`,
    () => page.locator(".monaco-resizable-hover .monaco-hover:not(.hidden)").allInnerTexts(),
    (texts) => texts.join("").trim() !== "" && !/loading/i.test(texts.join("")),
  ).then(async (texts) => {
    // It fades in: a picture taken at once would show half of it.
    await new Promise((resolve) => setTimeout(resolve, 400));
    return texts.join("\n");
  });
}

/** Puts the caret on a word by clicking it. */
export async function clickOn(page, lineText, word) {
  await page.mouse.move(5, 5);
  await page.keyboard.press("Escape");
  const box = await placeOf(page, lineText, word);
  await page.mouse.click(box.x, box.y);
}

async function placeOf(page, lineText, word) {
  const place = await page.evaluate(
    ([editor, wantedLine, wantedWord]) => {
      for (const line of document.querySelectorAll(`${editor} .view-lines .view-line`)) {
        const text = (line.textContent ?? "").replaceAll("\u00a0", " ");
        if (!text.includes(wantedLine)) continue;
        const at = text.indexOf(wantedWord);
        if (at < 0) continue;
        const range = document.createRange();
        const walker = document.createTreeWalker(line, NodeFilter.SHOW_TEXT);
        let left = at;
        for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
          const length = node.textContent.length;
          if (left < length) {
            range.setStart(node, left);
            range.setEnd(node, Math.min(length, left + 1));
            const box = range.getBoundingClientRect();
            return { x: box.x + box.width / 2 + 1, y: box.y + box.height / 2 };
          }
          left -= length;
        }
      }
      return null;
    },
    [EDITOR, lineText, word],
  );
  if (place === null) throw new Error(`"${word}" is not shown on a line with "${lineText}"`);
  return place;
}

/** Opens the quick fixes at the caret; gives their titles in order. */
export async function quickFixes(page) {
  await page.keyboard.press("Control+.");
  await page.waitForSelector(".action-widget .monaco-list-row", { timeout: 15_000 });
  return page.$$eval(".action-widget .monaco-list-row.action", (rows) =>
    rows.map((row) => (row.textContent ?? "").trim()),
  );
}

/** Runs a command by its title, as from the command palette. */
export async function command(page, title) {
  await page.keyboard.press("Escape");
  await page.keyboard.press("F1");
  await page.waitForSelector(".quick-input-widget input");
  await page.locator(".quick-input-widget input").first().fill(`>${title}`);
  await page.locator(".quick-input-list .monaco-list-row", { hasText: title }).first().click();
}

/** Takes a row of the picker that is open, after typing part of it: long lists show only some of their rows. */
export async function pick(page, text) {
  await page.locator(".quick-input-list .monaco-list-row").first().waitFor({ timeout: 15_000 });
  await page.keyboard.type(text);
  await page.locator(".quick-input-list .monaco-list-row", { hasText: text }).first().click({ timeout: 15_000 });
}

export async function save(page) {
  await page.keyboard.press("Control+S");
}
