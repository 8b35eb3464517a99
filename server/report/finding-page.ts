/** A finding's page in Markdown, and all of them in one document, printed from the rules themselves. */
import type { FindingRule } from "../findings/finding.js";

/** Null for an id that no rule has. */
export function findingPage(rules: readonly FindingRule[], id: string): string | null {
  const rule = rules.find((candidate) => candidate.id === id);
  return rule === undefined ? null : page(rule, "#");
}

/** `docs/findings.md`. */
export function findingsDocument(rules: readonly FindingRule[]): string {
  const rows = rules.map((rule) => `| [${rule.id}](#${rule.id}) | ${rule.severity} | ${rule.says.replaceAll("|", "\\|")} |`);
  return `# Findings

Printed by \`npm run docs\` from the files under server/findings: change those, not this.

| id | severity | says |
| --- | --- | --- |
${rows.join("\n")}

${rules.map((rule) => page(rule, "##")).join("\n")}`;
}

/** `heading`: the marks of the page's own heading; those of its parts have one more. */
function page(rule: FindingRule, heading: string): string {
  return `${heading} ${rule.id}

${rule.says}

**Severity:** ${rule.severity}

${heading}# Why it matters

${rule.why}

Source: ${rule.source}

${heading}# A sketch that shows it

\`\`\`cpp
${rule.fires.trim()}
\`\`\`

${heading}# The same without it

\`\`\`cpp
${rule.quiet.trim()}
\`\`\`

${heading}# When to leave it be

${rule.whenFine}

Put \`// for pulsewright: allow ${rule.id} because …\` on the line or above the statement.
`;
}
