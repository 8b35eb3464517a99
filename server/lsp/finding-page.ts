/** A finding's page in Markdown, printed from the rule itself. */
import type { FindingRule } from "../findings/finding.js";

/** Null for an id that no rule has. */
export function findingPage(rules: readonly FindingRule[], id: string): string | null {
  const rule = rules.find((candidate) => candidate.id === id);
  if (rule === undefined) return null;
  return `# ${rule.id}

${rule.says}

**Severity:** ${rule.severity}

## Why it matters

${rule.why}

Source: ${rule.source}

## A sketch that shows it

\`\`\`cpp
${rule.fires.trim()}
\`\`\`

## The same without it

\`\`\`cpp
${rule.quiet.trim()}
\`\`\`

## When to leave it be

${rule.whenFine}

Put \`// for pulsewright: allow ${rule.id} because …\` on the line or above the statement.
`;
}
