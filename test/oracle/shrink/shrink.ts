/**
 * Delta debugging: makes a failing program smaller as long as it still fails in the same way. Knows neither the compiler
 * nor the machine: `fails` judges every candidate. Greedy, the largest cuts first, until nothing can go or time is up.
 */
import { applied, CUTS, tidied } from "./edits.js";
import { withoutComments } from "./tokens.js";

/** A program's files by name. */
export type Files = Readonly<Record<string, string>>;

export interface Shrunk {
  readonly files: Files;
  readonly tried: number;
  /** Nothing more can go; false where time was up before. */
  readonly minimal: boolean;
}

export async function shrink(
  files: Files,
  fails: (files: Files) => Promise<boolean>,
  outOfTime: () => boolean,
): Promise<Shrunk> {
  const seen = new Set<string>();
  let best = files;
  let tried = 0;
  const attempt = async (candidate: Files): Promise<boolean> => {
    const key = Object.entries(candidate)
      .map(([name, text]) => `${name}\n${text.replace(/\s+/g, " ")}`)
      .join("\0");
    if (seen.has(key)) return false;
    seen.add(key);
    tried++;
    if (!(await fails(candidate))) return false;
    best = candidate;
    return true;
  };
  const tidy = async (): Promise<void> => {
    await attempt(Object.fromEntries(Object.entries(best).map(([name, text]) => [name, tidied(text)])));
  };
  await tidy();
  for (let progress = true; progress; ) {
    progress = false;
    for (const name of Object.keys(best)) {
      if (outOfTime()) break;
      const { [name]: _dropped, ...others } = best;
      if (Object.keys(others).length > 0 && (await attempt(others))) progress = true;
    }
    for (const name of Object.keys(best)) {
      for (const cut of CUTS) {
        let edits = cut(withoutComments(best[name]!));
        for (let at = 0; at < edits.length; ) {
          if (outOfTime()) {
            await tidy();
            return { files: best, tried, minimal: false };
          }
          const candidate = { ...best, [name]: applied(withoutComments(best[name]!), edits[at]!) };
          if (await attempt(candidate)) {
            progress = true;
            edits = cut(withoutComments(best[name]!));
          } else at++;
        }
      }
    }
    await tidy();
  }
  return { files: best, tried, minimal: true };
}
