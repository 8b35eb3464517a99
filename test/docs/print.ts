/** Every printed document: its path in the repository and its text. `npm run docs` writes them, a test compares. */
import { allFindings } from "../../server/findings/all.js";
import { findingsDocument } from "../../server/report/finding-page.js";

export const printed: readonly { readonly path: string; readonly text: string }[] = [
  { path: "docs/findings.md", text: findingsDocument(allFindings) },
];
