/** What is wrong with a SARIF log, beyond what a schema can say: indexes, ids, regions and paths that do not agree. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import type { Log } from "sarif";
import type { SarifFix, SarifLocation, SarifLog, SarifRegion } from "../../server/report/sarif-log.js";
import { sarifConstraints } from "./sarif-constraints.js";

interface Validate {
  (value: unknown): boolean;
  readonly errors?: readonly { readonly instancePath: string; readonly message?: string }[] | null;
}
const Ajv = createRequire(__filename)("ajv") as new (options: object) => { compile(schema: object): Validate };
const formats = {
  uri: (text: string) => URL.canParse(text),
  "uri-reference": (text: string) => /^[A-Za-z0-9._~!$&'()*+,;=:@/%-]*$/.test(text) && !/%(?![0-9A-F]{2})/.test(text),
  "date-time": (text: string) => !Number.isNaN(Date.parse(text)),
};
// `anyOf` names fields that stand beside it, not inside.
const validate = new Ajv({ allErrors: true, strictRequired: false, formats }).compile(sarifConstraints);
/**
 * The published schema: OASIS SARIF 2.1.0, Schemata/sarif-schema-2.1.0.json (its `$id`), as the package schemastore 0.2.2 carries
 * it, without changes. Its patterns are no Unicode ones, and it knows more words than a strict reading allows.
 */
const publishedSchema = JSON.parse(readFileSync(join(__dirname, "sarif-schema-2.1.0.json"), "utf8")) as object;
const validatePublished = new Ajv({ allErrors: true, strict: false, unicodeRegExp: false, formats }).compile(
  publishedSchema,
);

type Mutable<T> = { -readonly [K in keyof T]: Mutable<T[K]> };

/** Text by path from the root. */
export type Texts = Readonly<Record<string, string>>;

export function sarifFaults(log: SarifLog, texts: Texts): string[] {
  const found: string[] = [];
  // The types that others made of the schema: wrong names, kinds or words do not compile.
  const typed: Log = JSON.parse(JSON.stringify(log)) as Mutable<SarifLog>;
  if (!validatePublished(typed))
    found.push(
      ...(validatePublished.errors ?? []).map((error) => `published schema: ${error.instancePath} ${error.message}`),
    );
  if (!validate(typed))
    found.push(...(validate.errors ?? []).map((error) => `schema: ${error.instancePath} ${error.message}`));
  // What follows takes the shape for granted.
  if (found.length > 0) return found;
  if (log.runs.length !== 1) found.push(`${log.runs.length} runs`);
  for (const run of log.runs) {
    const { rules, notifications } = run.tool.driver;
    const ids = [...rules, ...notifications].map((rule) => rule.id);
    if (new Set(ids).size !== ids.length) found.push("an id is used twice");
    for (const rule of rules) {
      if (!/^PW\d{4}$/.test(rule.id)) found.push(`${rule.id} is no opaque id`);
      if (!/^([A-Z][a-z]+)+$|^([A-Z][a-z]*)+$/.test(rule.name)) found.push(`${rule.name} is not in Pascal case`);
      for (const described of [rule.shortDescription, rule.fullDescription])
        if (!/[.?]$/.test(described.text)) found.push(`${rule.id}: no sentence: ${described.text}`);
      if (rule.help === undefined || rule.help.text.includes("`")) found.push(`${rule.id}: help`);
    }
    const fingerprints = new Set<string>();
    for (const result of run.results) {
      const name = `${result.ruleId} at ${result.locations[0]?.physicalLocation?.region?.startLine}`;
      if (rules[result.ruleIndex]?.id !== result.ruleId) found.push(`${name}: index ${result.ruleIndex}`);
      if (result.locations.length !== 1) found.push(`${name}: ${result.locations.length} locations`);
      if (!/[.!?]$/.test(result.message.text)) found.push(`${name}: no period: ${result.message.text}`);
      if (result.message.text.includes("`")) found.push(`${name}: a backtick in plain text`);
      const links = [...result.message.text.matchAll(/(?<!\\)\]\((\d+)\)/g)].map(([, id]) => Number(id));
      const related = (result.relatedLocations ?? []).map(({ id }) => id);
      if (JSON.stringify(links) !== JSON.stringify(related))
        found.push(`${name}: links ${links}, locations ${related}`);
      for (const location of [...result.locations, ...(result.relatedLocations ?? [])])
        found.push(...locationFaults(location, run, texts).map((fault) => `${name}: ${fault}`));
      for (const fix of result.fixes ?? [])
        found.push(...fixFaults(fix, run, texts).map((fault) => `${name}: ${fault}`));
      const print = JSON.stringify([
        result.locations[0]?.physicalLocation?.artifactLocation.uri,
        result.ruleId,
        result.partialFingerprints,
      ]);
      if (fingerprints.has(print)) found.push(`${name}: told by the same fingerprints as another`);
      fingerprints.add(print);
    }
    for (const { toolExecutionNotifications, toolConfigurationNotifications } of run.invocations)
      for (const each of [...toolExecutionNotifications, ...toolConfigurationNotifications]) {
        if (notifications[each.descriptor.index]?.id !== each.descriptor.id)
          found.push(`notification ${each.descriptor.id}`);
        for (const location of each.locations ?? []) found.push(...locationFaults(location, run, texts));
      }
    run.artifacts.forEach(({ location }, index) => {
      if (location.index !== index) found.push(`artifact ${index} says ${location.index}`);
      if (location.uri.startsWith("/") || /^\w+:|\\|(^|\/)\.\.?(\/|$)/.test(location.uri))
        found.push(`path ${location.uri}`);
    });
  }
  return found;
}

type Run = SarifLog["runs"][number];

function locationFaults({ physicalLocation }: SarifLocation, run: Run, texts: Texts): string[] {
  if (physicalLocation === undefined) return [];
  const { artifactLocation, region } = physicalLocation;
  const found = artifactFaults(artifactLocation, run);
  return region === undefined ? found : [...found, ...regionFaults(region, textOf(artifactLocation.uri, texts))];
}

function artifactFaults(
  { uri, uriBaseId, index }: { uri: string; uriBaseId: string; index: number },
  run: Run,
): string[] {
  const known = run.artifacts[index]?.location.uri;
  return [
    ...(known === uri ? [] : [`artifact ${index} is ${known}, not ${uri}`]),
    ...(run.originalUriBaseIds[uriBaseId] === undefined ? [`base ${uriBaseId} is not told`] : []),
  ];
}

function textOf(uri: string, texts: Texts): string {
  return (texts[decodeURIComponent(uri)] ?? "").replace(/^\ufeff/, "");
}

/** Lines and columns lead to the very place that the offsets say, by counting anew. */
function regionFaults(region: SarifRegion, text: string): string[] {
  const starts = [0];
  for (const { index, 0: end } of text.matchAll(/\r\n|\n|\r/g)) starts.push(index + end.length);
  const offset = (line: number, column: number): number => (starts[line - 1] ?? Number.NaN) + column - 1;
  const [from, to] = [offset(region.startLine, region.startColumn), offset(region.endLine, region.endColumn)];
  if (from === region.charOffset && to === region.charOffset + region.charLength && to <= text.length) return [];
  return [`region ${JSON.stringify(region)} is ${from}..${to} of ${text.length}`];
}

function fixFaults(fix: SarifFix, run: Run, texts: Texts): string[] {
  return fix.artifactChanges.flatMap(({ artifactLocation, replacements }) => [
    ...artifactFaults(artifactLocation, run),
    ...replacements.flatMap(({ deletedRegion }) => regionFaults(deletedRegion, textOf(artifactLocation.uri, texts))),
  ]);
}

/** The text with a fix made, read from the log alone: lines and columns of the text as it is. */
export function withFix(fix: SarifFix, uri: string, text: string): string {
  const change = fix.artifactChanges.find(({ artifactLocation }) => artifactLocation.uri === uri);
  let made = text;
  for (const { deletedRegion, insertedContent } of [...(change?.replacements ?? [])].reverse()) {
    const starts = [0];
    for (const { index, 0: end } of text.matchAll(/\r\n|\n|\r/g)) starts.push(index + end.length);
    const from = starts[deletedRegion.startLine - 1]! + deletedRegion.startColumn - 1;
    const to = starts[deletedRegion.endLine - 1]! + deletedRegion.endColumn - 1;
    made = made.slice(0, from) + (insertedContent?.text ?? "") + made.slice(to);
  }
  return made;
}
