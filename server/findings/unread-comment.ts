/** A comment addressed to the tool that cannot be read. */
import type { FindingRule } from "./finding.js";

export const unreadComment: FindingRule = {
  id: "unread-comment",
  severity: "warning",
  says: "A comment addressed to the tool cannot be read, with the column and what was expected there.",
  why: "A want that is not read is a want that is not checked: silence would look like a yes.",
  source: "our own comment language, described in the documentation",
  fires: `// wants D3: 1 kHz +-2 percents
void setup() {}

void loop() { analogWrite(3, 60); }
`,
  quiet: `// wants D3: 490 Hz +-2 %
void setup() {}

void loop() { analogWrite(3, 60); }
`,
  whenFine: "Prose that only happens to begin with these words can be reworded, or begun with a capital letter.",
  check(analysis, report) {
    for (const { comment, span, pin } of analysis.comments) {
      if ((comment.kind === "want" || comment.kind === "reading") && pin === null) {
        const board = analysis.target.board?.id ?? analysis.target.chip.id;
        report({
          message: `${comment.pin} is no pin of the ${board}, and no constant of the sketch that holds one. Write the pin as the board prints it, such as D9 or A0.`,
          span: { path: span.path, start: span.start + comment.pinAt.start, end: span.start + comment.pinAt.end },
          related: [],
        });
      }
      if (comment.kind !== "unread") continue;
      const start = Math.min(span.start + comment.column, span.end);
      const end = Math.max(start, Math.min(span.start + comment.at.end, span.end));
      const text = analysis.files.find((file) => file.path === span.path)?.text ?? "";
      const column = start - Math.max(text.lastIndexOf("\n", start - 1), text.lastIndexOf("\r", start - 1));
      report({
        message: `This comment is not understood from column ${column} on: expected ${comment.expected}.`,
        span: end > start ? { path: span.path, start, end } : span,
        related: [],
      });
    }
  },
};
