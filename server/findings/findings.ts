/** From a finished analysis to its findings. A finding switched off is not run; a check that fails loses only itself. */

import type { Analysis } from "../analysis.js";
import { Stopped } from "../limits.js";
import { ownPaths } from "../look/look.js";
import { allFindings } from "./all.js";
import { allowances, isAllowed } from "./allow.js";
import type { Finding, FindingRule, Severity } from "./finding.js";

export interface FindingOptions {
  /** Ids of findings that are not run. */
  readonly off?: ReadonlySet<string>;
  /** Severities that replace the rules' own, by id. */
  readonly severities?: Readonly<Record<string, Severity>>;
  /** Findings kept for one file, the gravest first; all where absent. */
  readonly perFile?: number;
  /** Told of a finding that a comment of the sketch allows. */
  readonly onAllowed?: (finding: Finding) => void;
  /** Told of a check that threw; the other checks go on. */
  readonly onFailure?: (id: string, error: unknown) => void;
}

const GRAVITY: Readonly<Record<Severity, number>> = { error: 0, warning: 1, note: 2 };

/** How grave: 0 error, 1 warning, 2 note. */
export function gravity(severity: Severity): number {
  return GRAVITY[severity];
}

/** All findings of the sketch, ascending by file and place. */
export function findingsOf(analysis: Analysis, options: FindingOptions = {}): Finding[] {
  return runRules(allFindings, analysis, options);
}

/** The same with a list of rules of the caller's choice. */
export function runRules(rules: readonly FindingRule[], analysis: Analysis, options: FindingOptions = {}): Finding[] {
  const allowed = allowances(analysis);
  const own = ownPaths(analysis);
  const found = new Map<string, Finding>();
  for (const rule of rules) {
    if (options.off?.has(rule.id)) continue;
    const severity = options.severities?.[rule.id] ?? rule.severity;
    for (const finding of runRule(rule, severity, analysis, options)) {
      if (!own.has(finding.span.path)) continue;
      if (isAllowed(allowed, finding.id, finding.span)) {
        options.onAllowed?.(finding);
        continue;
      }
      const key = `${finding.id}|${finding.span.path}|${finding.span.start}|${finding.span.end}|${finding.message}`;
      if (!found.has(key)) found.set(key, finding);
    }
  }
  return limited([...found.values()], fileOrder(analysis), options.perFile);
}

function runRule(rule: FindingRule, severity: Severity, analysis: Analysis, options: FindingOptions): Finding[] {
  const found: Finding[] = [];
  try {
    rule.check(analysis, (report) => {
      found.push({
        id: rule.id,
        severity,
        message: report.message,
        span: report.span,
        related: report.related,
        fixes: report.fixes ?? [],
      });
    });
  } catch (error) {
    if (error instanceof Stopped) throw error;
    options.onFailure?.(rule.id, error);
    return [];
  }
  return found;
}

function fileOrder(analysis: Analysis): ReadonlyMap<string, number> {
  return new Map(analysis.files.map((file, index) => [file.path, index]));
}

function limited(found: Finding[], order: ReadonlyMap<string, number>, perFile: number | undefined): Finding[] {
  const byPlace = (left: Finding, right: Finding) =>
    (order.get(left.span.path) ?? 0) - (order.get(right.span.path) ?? 0) ||
    left.span.start - right.span.start ||
    left.span.end - right.span.end ||
    gravity(left.severity) - gravity(right.severity) ||
    (left.id < right.id ? -1 : left.id > right.id ? 1 : 0);
  found.sort(byPlace);
  if (perFile === undefined || found.length <= perFile) return found;
  const counts = new Map<string, number>();
  const kept = [...found]
    .sort((left, right) => gravity(left.severity) - gravity(right.severity) || byPlace(left, right))
    .filter((finding) => {
      const count = (counts.get(finding.span.path) ?? 0) + 1;
      counts.set(finding.span.path, count);
      return count <= perFile;
    });
  return kept.sort(byPlace);
}
