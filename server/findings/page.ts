/** The page of a finding, and the page of all findings, as Markdown: printed from the objects, never written by hand. */
import type { FindingRule, Severity } from "./finding.js";

const SEVERITY: Readonly<Record<Severity, string>> = { error: "error", warning: "warning", note: "note" };

/** One finding's page; `level` is the depth of its heading. */
export function findingPage(rule: FindingRule, level = 1): string {
  return [
    `${"#".repeat(level)} ${rule.id}`,
    "",
    `*${SEVERITY[rule.severity]}* · ${rule.says}`,
    "",
    rule.why,
    "",
    `Source: ${rule.source}`,
    "",
    "This sketch shows it:",
    "",
    block(rule.fires),
    "",
    "This one does not:",
    "",
    block(rule.quiet),
    "",
    `When to leave it be: ${rule.whenFine}`,
    "",
  ].join("\n");
}

function block(sketch: string): string {
  return `\`\`\`cpp\n${sketch.trimEnd()}\n\`\`\``;
}

/** All findings on one page, with a table of contents. */
export function findingsPage(rules: readonly FindingRule[]): string {
  return [
    "# Findings",
    "",
    "Printed by `npm run docs` from `server/findings/`; do not edit by hand.",
    "",
    "A finding is left out at one place by a comment on its line, or on the line above; several ids stand between commas:",
    "",
    "```cpp",
    "// for pulsewright: allow bare-number because the values come from a table",
    "// for pulsewright: allow kept-bits, time-base-moved because nothing here waits",
    "```",
    "",
    findingsTable(rules, ""),
    "",
    ...rules.map((rule) => findingPage(rule, 2)),
  ].join("\n");
}

/** The table of findings; `page` is the file that the links lead to, empty for the same one. */
export function findingsTable(rules: readonly FindingRule[], page: string): string {
  return [
    "| finding | severity | says |",
    "| --- | --- | --- |",
    ...rules.map(
      (rule) => `| [${rule.id}](${page}#${rule.id}) | ${rule.severity} | ${rule.says.replace(/\|/g, "\\|")} |`,
    ),
  ].join("\n");
}
