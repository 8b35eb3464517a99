/**
 * Spans as SARIF's regions and locations: the one place where lines and columns begin to count at 1. A byte order mark is no
 * part of the text there, so the first line loses it.
 */
import type { Span } from "../../shared-model/span.js";
import { type LineIndex, lineIndex } from "../../shared-model/text-position.js";
import type { SarifArtifact, SarifArtifactLocation, SarifLocation, SarifRegion } from "./sarif-log.js";

/** What all paths count from. */
export const ROOT = "%SRCROOT%";

/** A file of the run. */
export interface KnownFile {
  /** As spans name it. */
  readonly path: string;
  readonly text: string;
  /** From the root, percent-encoded; null for a file outside of it. */
  readonly uri: string | null;
  readonly role: "analysisTarget" | "tracedFile";
}

export interface SarifPlaces {
  readonly artifacts: readonly SarifArtifact[];
  /** Null for a file outside the root: a relative path that climbs, or an absolute one, is worse than none. */
  artifact(path: string): SarifArtifactLocation | null;
  region(span: Span): SarifRegion;
  location(span: Span): SarifLocation | null;
}

export function sarifPlaces(files: readonly KnownFile[]): SarifPlaces {
  const byUri = new Map<string, KnownFile>();
  for (const file of files) {
    const known = file.uri === null ? undefined : byUri.get(file.uri);
    if (file.uri !== null && (known === undefined || known.role === "tracedFile")) byUri.set(file.uri, file);
  }
  const uris = [...byUri.keys()].sort();
  const uriOf = new Map(files.map((file) => [file.path, file.uri]));
  const artifact = (path: string): SarifArtifactLocation | null => {
    const uri = uriOf.get(path) ?? null;
    return uri === null ? null : { uri, uriBaseId: ROOT, index: uris.indexOf(uri) };
  };
  const texts = new Map(files.map((file) => [file.path, file.text]));
  const indexes = new Map<string, LineIndex>();
  const region = (span: Span): SarifRegion => {
    const text = texts.get(span.path) ?? "";
    let index = indexes.get(span.path);
    if (index === undefined) {
      index = lineIndex(text);
      indexes.set(span.path, index);
    }
    const mark = text.charCodeAt(0) === BYTE_ORDER_MARK ? 1 : 0;
    const from = Math.max(mark, span.start);
    const to = Math.max(from, span.end);
    const [start, end] = [index.positionAt(from), index.positionAt(to)];
    const column = (at: { readonly line: number; readonly character: number }): number =>
      at.character + 1 - (at.line === 0 ? mark : 0);
    return {
      startLine: start.line + 1,
      startColumn: column(start),
      endLine: end.line + 1,
      endColumn: column(end),
      charOffset: from - mark,
      charLength: to - from,
    };
  };
  return {
    artifacts: uris.map((uri, index) => ({
      location: { uri, uriBaseId: ROOT, index },
      roles: [byUri.get(uri)!.role],
    })),
    artifact,
    region,
    location(span) {
      const artifactLocation = artifact(span.path);
      return artifactLocation === null ? null : { physicalLocation: { artifactLocation, region: region(span) } };
    },
  };
}

const BYTE_ORDER_MARK = 0xfeff;
