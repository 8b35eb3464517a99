/** The findings as SARIF's rules, and the conditions of a run as its notifications: each once, in a fixed order. */
import { allFindings } from "../findings/all.js";
import type { FindingRule, Severity } from "../findings/finding.js";
import { findingPage } from "../findings/page.js";
import { ruleCode } from "../findings/rule-numbers.js";
import type { SarifDescriptor, SarifText } from "./sarif-log.js";

export interface RuleReference {
  readonly ruleId: string;
  readonly ruleIndex: number;
}

const INDEX = new Map(allFindings.map((rule, index) => [rule.id, index]));

export function ruleReference(id: string): RuleReference {
  const ruleIndex = INDEX.get(id);
  if (ruleIndex === undefined) throw new RangeError(`${id} is no finding`);
  return { ruleId: ruleCode(id), ruleIndex };
}

/** Every rule that can fire, whether it did or not. There is no page on the net to lead to, so none is named. */
export function ruleDescriptors(): readonly SarifDescriptor[] {
  return allFindings.map((rule) => ({
    id: ruleCode(rule.id),
    name: pascalCase(rule.id),
    shortDescription: textOf(rule.says),
    fullDescription: textOf(`${rule.says} ${rule.why}`),
    help: { text: plainPage(rule), markdown: findingPage(rule) },
    defaultConfiguration: { level: rule.severity },
    properties: {
      // The quiet set holds every finding to this: a false alarm there fails the build.
      precision: "high",
      "problem.severity": PROBLEM[rule.severity],
      tags: ["avr", "timer", rule.id],
    },
  }));
}

const PROBLEM: Readonly<Record<Severity, string>> = { error: "error", warning: "warning", note: "recommendation" };

function pascalCase(id: string): string {
  return id
    .split("-")
    .map((word) => word[0]!.toUpperCase() + word.slice(1))
    .join("");
}

/** Text with backticks as SARIF has it: quotation marks where it is plain, code where it is Markdown. */
export function textOf(text: string): SarifText {
  const plain = text.replaceAll("`", "'");
  return plain === text ? { text } : { text: plain, markdown: text };
}

function plainPage(rule: FindingRule): string {
  return [
    rule.says,
    rule.why,
    `Source: ${rule.source}`,
    `This sketch shows it:\n\n${rule.fires.trimEnd()}`,
    `This one does not:\n\n${rule.quiet.trimEnd()}`,
    `When to leave it be: ${rule.whenFine}`,
  ]
    .join("\n\n")
    .replaceAll("`", "'");
}

/** What can be said of a run itself. */
export type Condition = "not followed" | "given up" | "not read" | "fixes not tried";

const CONDITIONS: readonly (SarifDescriptor & { readonly condition: Condition })[] = [
  {
    condition: "not followed",
    id: "PW9001",
    name: "NotFollowed",
    shortDescription: { text: "A part of the sketch was not understood or not followed." },
    fullDescription: { text: "What it touches is reported as unknown, and findings about it may be missing." },
    defaultConfiguration: { level: "error" },
  },
  {
    condition: "given up",
    id: "PW9002",
    name: "GivenUp",
    shortDescription: { text: "The analysis of a sketch, or one of its checks, was given up." },
    fullDescription: { text: "It failed or took too long, and findings of the sketch are missing." },
    defaultConfiguration: { level: "error" },
  },
  {
    condition: "not read",
    id: "PW9003",
    name: "NotRead",
    shortDescription: { text: "A path of the command line could not be read." },
    fullDescription: {
      text: "There is no sketch at the path, or what it needs cannot be read; nothing of it is reported.",
    },
    defaultConfiguration: { level: "error" },
  },
  {
    condition: "fixes not tried",
    id: "PW9004",
    name: "FixesNotTried",
    shortDescription: { text: "Not every fix was tried." },
    fullDescription: { text: "A fix is offered only where the edited sketch was analysed again; there were too many." },
    defaultConfiguration: { level: "note" },
  },
];

export function notificationDescriptors(): readonly SarifDescriptor[] {
  return CONDITIONS.map(({ condition: _, ...descriptor }) => descriptor);
}

export function conditionReference(condition: Condition): { readonly id: string; readonly index: number } {
  const index = CONDITIONS.findIndex((candidate) => candidate.condition === condition);
  return { id: CONDITIONS[index]!.id, index };
}
