/** Which documents are printed from the product's own objects, and what each must hold. Used to write them and to check them. */
import { allFindings } from "../../server/findings/all.js";
import { findingsPage, findingsTable } from "../../server/findings/page.js";

export interface Document {
  /** Relative to the repository. */
  readonly path: string;
  /** The whole text, given what the file holds now (empty where it is not there yet). */
  print(now: string): string;
}

export const documents: readonly Document[] = [
  { path: "docs/findings.md", print: () => findingsPage(allFindings) },
  { path: "README.md", print: (now) => between(now, "findings", findingsTable(allFindings, "docs/findings.md")) },
];

/** The text between `<!-- NAME -->` and `<!-- /NAME -->` replaced; unchanged where the file has no such place. */
export function between(text: string, name: string, inner: string): string {
  const open = `<!-- ${name} -->`;
  const close = `<!-- /${name} -->`;
  const start = text.indexOf(open);
  const end = text.indexOf(close);
  if (start < 0 || end < start) return text;
  return `${text.slice(0, start + open.length)}\n${inner}\n${text.slice(end)}`;
}
