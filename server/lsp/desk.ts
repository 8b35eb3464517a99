/** The engine's desk: one question in, one answer out. Knows files, analyses and the protocol's shapes; nothing of connections or waiting. */

import { isAbsolute, join } from "node:path";
import type { CompletionItem, Hover, InlayHint } from "vscode-languageserver/node";
import { boards } from "../../shared-model/boards/boards.js";
import { readClock } from "../../shared-model/clock-text.js";
import type { BoardChoice, FileEdit, PlannedEdit, TargetAnswer } from "../../shared-model/protocol.js";
import { specifications } from "../../shared-model/specifications.js";
import type { TargetSource } from "../../shared-model/target.js";
import { readOwnSpecifications } from "../../shared-model/wants/own-specifications.js";
import { type Buffer, disk, type FileAccess, noDisk, withBuffers } from "../files/file-access.js";
import { isTab, type SketchPlace, sketchOf } from "../files/sketch-place.js";
import { allFindings } from "../findings/all.js";
import type { Finding, Severity } from "../findings/finding.js";
import { findingsOf } from "../findings/findings.js";
import { findingPage } from "../findings/page.js";
import { DEFAULT_LIMITS, type DoorLimits, type Stop } from "../limits.js";
import type { Parser } from "../parse/parse.js";
import { sheetsMarkdown } from "../report/markdown.js";
import { reportSketch } from "../report/report.js";
import { sheetText } from "../report/text.js";
import { completionsAt } from "./completions.js";
import { dutyCurveAnswer } from "./duty-curves.js";
import { hintsIn } from "./hints.js";
import { hoverAt } from "./hovers.js";
import { type Judged, offeredActions, resolvedAction } from "./offered-actions.js";
import { lensTitle, wantLenses } from "./offered-plans.js";
import type { BufferChange, Circumstances, Exchange, QuestionMessage, SketchDiagnostics } from "./questions.js";
import type { EditorSettings } from "./settings.js";
import { pinChoices, planChoices, plannedEdits, unreadPart } from "./signal-plans.js";
import { type AnalysedSketch, type Looked, SketchCache } from "./sketch-cache.js";
import { targetEdit } from "./target-edit.js";
import { DocumentPlaces } from "./to-lsp.js";
import { uriOf } from "./uris.js";

/** A document's sketch as far as it could be looked at. */
interface AtDesk {
  readonly place: SketchPlace;
  readonly looked: Looked;
}

export class Desk {
  readonly #buffers = new Map<string, Buffer & { readonly uri: string }>();
  readonly #files: FileAccess = withBuffers(disk, this.#buffers);
  readonly #openFiles: FileAccess = withBuffers(noDisk, this.#buffers);
  readonly #cache: SketchCache;
  readonly #findings = new WeakMap<AnalysedSketch, { readonly options: string; readonly judged: Judged }>();

  constructor(parser: Parser, limits: DoorLimits) {
    this.#cache = new SketchCache(parser, limits.analysesKept);
  }

  takeBuffers(changes: readonly BufferChange[]): void {
    for (const { path, uri, version, text } of changes) {
      if (text === null) this.#buffers.delete(path);
      else this.#buffers.set(path, { uri, version, text });
    }
  }

  /** Throws `Stopped` where `stop` does. */
  answer(question: QuestionMessage, stop: Stop): unknown {
    const { kind, circumstances } = question;
    const answers: { readonly [K in keyof Exchange]: (asks: Exchange[K]["asks"]) => Exchange[K]["answer"] } = {
      hover: ({ path, position }) => this.#hover(path, position, circumstances, stop),
      dutyCurve: ({ path, position }) => {
        const sketch = this.#sketch(path, circumstances, stop);
        return sketch === undefined ? null : dutyCurveAnswer(sketch.analysis, path, position, this.#places(sketch));
      },
      hints: ({ path, range }) => this.#hints(path, range, circumstances, stop),
      diagnostics: ({ path }) => this.#diagnostics(path, circumstances, stop),
      actions: (asks) => {
        const judged = this.#judged(asks.path, circumstances, stop);
        return judged === undefined ? [] : offeredActions(judged, asks.path, this.#versionOf(asks.path), asks, stop);
      },
      lenses: ({ path, version }) => {
        const judged = this.#judged(path, circumstances, stop);
        return judged === undefined ? [] : wantLenses(judged, path, version);
      },
      lensTitle: (asks) => {
        const judged = this.#judged(asks.path, circumstances, stop);
        return judged === undefined ? { title: "", command: "", arguments: [] } : lensTitle(judged, asks, stop);
      },
      resolve: ({ path, wanted }) => {
        const judged = this.#judged(path, circumstances, stop);
        return judged === undefined
          ? { kind: "refused", reason: "there is no sketch here" }
          : resolvedAction(judged, wanted, stop);
      },
      completion: ({ path, position }) => this.#completion(path, position, circumstances, stop),
      target: ({ path }) => this.#target(path, circumstances, stop),
      targetEdit: ({ path, boardId, clockHz }) => this.#targetEdit(path, { boardId, clockHz }),
      boards: () => boardChoices(),
      findingPage: ({ id }) => {
        const rule = allFindings.find((candidate) => candidate.id === id);
        return rule === undefined ? null : findingPage(rule);
      },
      sheet: ({ path, format }) => this.#sheet(path, format, circumstances, stop),
      pins: ({ path }) => {
        const sketch = this.#sketch(path, circumstances, stop);
        return sketch === undefined ? null : pinChoices(sketch.analysis);
      },
      readWant: ({ pin, want }) => {
        const own = readOwnSpecifications(circumstances.settings.specifications);
        return unreadPart(pin, want, [...specifications, ...own.specifications]);
      },
      plans: ({ path, pin, want }) => {
        const sketch = this.#sketch(path, circumstances, stop);
        return sketch === undefined ? null : planChoices(sketch, pin, want, stop);
      },
      planEdit: (asks) => this.#planEdit(asks, circumstances, stop),
    };
    return (answers[kind] as (asks: QuestionMessage["asks"]) => unknown)(question.asks);
  }

  #hover(
    path: string,
    position: Exchange["hover"]["asks"]["position"],
    circumstances: Circumstances,
    stop: Stop,
  ): Hover | null {
    const sketch = this.#sketch(path, circumstances, stop);
    return sketch === undefined ? null : hoverAt(sketch.analysis, path, position, this.#places(sketch));
  }

  #hints(
    path: string,
    range: Exchange["hints"]["asks"]["range"],
    circumstances: Circumstances,
    stop: Stop,
  ): InlayHint[] {
    const sketch = this.#sketch(path, circumstances, stop);
    return sketch === undefined
      ? []
      : hintsIn(sketch.analysis, path, range, circumstances.settings.hints, this.#places(sketch));
  }

  #completion(
    path: string,
    position: Exchange["completion"]["asks"]["position"],
    circumstances: Circumstances,
    stop: Stop,
  ): CompletionItem[] {
    const sketch = this.#sketch(path, circumstances, stop);
    return sketch === undefined ? [] : completionsAt(sketch.analysis, path, position, this.#places(sketch));
  }

  #diagnostics(path: string, circumstances: Circumstances, stop: Stop): SketchDiagnostics {
    const judged = this.#judged(path, circumstances, stop);
    if (judged === undefined) return { byUri: {}, broken: 0 };
    const { analysis } = judged.sketch;
    const byUri = Object.fromEntries(
      analysis.files
        .filter((file) => file.kind === "sketch")
        .map((file) => [
          judged.places.uri(file.path),
          judged.findings
            .filter((finding) => finding.span.path === file.path)
            .map((finding) => judged.places.diagnostic(finding)),
        ]),
    );
    return { byUri, broken: analysis.gaps.filter((gap) => SYNTAX_GAP.test(gap.reason)).length };
  }

  #target(path: string, circumstances: Circumstances, stop: Stop): TargetAnswer | null {
    const at = this.#at(path, circumstances, stop);
    if (at === undefined) return null;
    const mainUri = this.#uriOf(at.place.tabs[0] ?? at.place.units[0] ?? path);
    if (at.looked.kind === "trouble") {
      return {
        boardId: "",
        boardName: "",
        chip: "",
        clockHz: 0,
        fCpu: 0,
        clockTolerance: 0,
        decidedBy: "",
        complete: false,
        gaps: 0,
        mainUri,
        trouble: at.looked.reason,
      };
    }
    const { analysis, opened } = at.looked.sketch;
    const { target } = analysis;
    return {
      boardId: target.boardId,
      boardName: target.board?.name ?? `bare ${target.chip.id}`,
      chip: target.chip.id,
      clockHz: target.clockHz,
      fCpu: target.fCpu,
      clockTolerance: target.clockTolerance,
      decidedBy: target.decidedBy,
      mainUri,
      complete: analysis.complete && opened.gaps.length === 0,
      gaps: analysis.gaps.length + opened.gaps.length,
      trouble: null,
    };
  }

  #targetEdit(path: string, wanted: { readonly boardId?: string; readonly clockHz?: number }): FileEdit | null {
    const place = this.#place(path);
    const main = place?.tabs[0] ?? place?.units[0];
    if (main === undefined) return null;
    const reading = this.#filesFor(path).read(main);
    if (reading.kind !== "text") return null;
    const edit = targetEdit(main, reading.text, wanted);
    const places = new DocumentPlaces([{ path: main, text: reading.text, kind: "sketch" }], (of) => this.#uriOf(of));
    return { uri: this.#uriOf(main), range: places.range(edit.span), newText: edit.text };
  }

  #sheet(path: string, format: "text" | "markdown", circumstances: Circumstances, stop: Stop): string | null {
    const at = this.#at(path, circumstances, stop);
    if (at === undefined) return null;
    if (at.looked.kind === "trouble") return `${at.looked.reason}\n`;
    const judged = this.#judge(at.looked.sketch, circumstances.settings);
    const { analysis, opened, place } = judged.sketch;
    const reported = reportSketch({ path: place.path, analysis, findings: judged.findings, gaps: opened.gaps });
    return format === "markdown"
      ? sheetsMarkdown([{ reported, analysis }], process.env["PULSEWRIGHT_VERSION"] ?? "0")
      : sheetText(reported, analysis, place.folder);
  }

  #planEdit(asks: Exchange["planEdit"]["asks"], circumstances: Circumstances, stop: Stop): PlannedEdit | null {
    const sketch = this.#sketch(asks.path, circumstances, stop);
    if (sketch === undefined) return null;
    const planned = plannedEdits(sketch, asks, stop);
    if ("refused" in planned) return planned;
    const places = this.#places(sketch);
    return {
      edits: planned.edits.map(({ span, text }) => ({
        uri: places.uri(span.path),
        range: places.range(span),
        newText: text,
      })),
    };
  }

  #sketch(path: string, circumstances: Circumstances, stop: Stop): AnalysedSketch | undefined {
    const at = this.#at(path, circumstances, stop);
    return at?.looked.kind === "sketch" ? at.looked.sketch : undefined;
  }

  #judged(path: string, circumstances: Circumstances, stop: Stop): Judged | undefined {
    const sketch = this.#sketch(path, circumstances, stop);
    return sketch === undefined ? undefined : this.#judge(sketch, circumstances.settings);
  }

  #judge(sketch: AnalysedSketch, settings: EditorSettings): Judged {
    const options = JSON.stringify(settings.findings);
    const known = this.#findings.get(sketch);
    if (known?.options === options) return known.judged;
    const judged: Judged = { sketch, findings: judgedBy(sketch, settings), places: this.#places(sketch) };
    this.#findings.set(sketch, { options, judged });
    return judged;
  }

  #at(path: string, { settings, workspace }: Circumstances, stop: Stop): AtDesk | undefined {
    const place = this.#place(path);
    if (place === undefined) return undefined;
    const options = {
      settings: targetSettings(settings),
      libraries: foldersNamed(settings.libraries, workspace),
      core: foldersNamed(settings.core.trim() === "" ? [] : [settings.core.trim()], workspace)[0],
      workspace,
      specifications: settings.specifications,
    };
    return { place, looked: this.#cache.look(place, options, this.#filesFor(path), stop) };
  }

  /** Undefined for a C++ file that is no program for an AVR: on a desktop project nothing is to be said. */
  #place(path: string): SketchPlace | undefined {
    const place = isOnDisk(path) ? sketchOf(path, this.#filesFor(path)) : aloneAt(path);
    const first = place?.tabs[0];
    if (place === undefined || first !== undefined)
      return place === undefined ? undefined : { ...place, path: first ?? path };
    const main = place.units[0];
    const reading = main === undefined ? undefined : this.#filesFor(path).read(main);
    return main !== undefined && reading?.kind === "text" && FOR_AVR.test(reading.text)
      ? { ...place, path: main }
      : undefined;
  }

  #filesFor(path: string): FileAccess {
    return isOnDisk(path) ? this.#files : this.#openFiles;
  }

  #places(sketch: AnalysedSketch): DocumentPlaces {
    return new DocumentPlaces(sketch.analysis.files, (path) => this.#uriOf(path));
  }

  #uriOf(path: string): string {
    return this.#buffers.get(path)?.uri ?? uriOf(path);
  }

  #versionOf(path: string): number {
    return this.#buffers.get(path)?.version ?? 0;
  }
}

/** How the stages word text that does not parse. */
const SYNTAX_GAP = /^text not understood|is missing here$|unterminated|never (?:ends|closed)|nested/i;

const FOR_AVR = /#\s*include\s*[<"](?:avr\/|util\/delay|Arduino\.h)/;

function isOnDisk(path: string): boolean {
  return path.startsWith("/") || /^[a-z]:[\\/]/i.test(path) || path.startsWith("\\\\");
}

/** An untitled or virtual document: a sketch of its own, where its name says that it is one. */
function aloneAt(uri: string): SketchPlace | undefined {
  const path = uri.replace(/[?#].*$/, "");
  if (!isTab(path) && !uri.startsWith("untitled:")) return undefined;
  return {
    path: uri,
    folder: uri.slice(0, Math.max(0, uri.lastIndexOf("/"))),
    tabs: [uri],
    units: [],
    unitsByHeader: [],
  };
}

/** Folders of the settings, relative ones from the workspace's folders. */
function foldersNamed(folders: readonly string[], workspace: readonly string[]): string[] {
  return folders.flatMap((named) => {
    const folder = named.replace(/^\$\{workspaceFolder\}[\\/]?/, "");
    return isAbsolute(folder) ? [folder] : workspace.filter(isOnDisk).map((root) => join(root, folder));
  });
}

function targetSettings(settings: EditorSettings): TargetSource | undefined {
  const board = settings.board.trim() === "" ? undefined : settings.board.trim();
  const clockHz = readClock(settings.clock) ?? undefined;
  return board === undefined && clockHz === undefined ? undefined : { board, clockHz };
}

function judgedBy(sketch: AnalysedSketch, settings: EditorSettings): readonly Finding[] {
  const wanted = Object.entries(settings.findings.severity);
  return findingsOf(sketch.analysis, {
    off: new Set(wanted.filter(([, severity]) => severity === "off").map(([id]) => id)),
    severities: Object.fromEntries(wanted.filter((entry): entry is [string, Severity] => entry[1] !== "off")),
    perFile: DEFAULT_LIMITS.findingsPerFile,
  });
}

function boardChoices(): BoardChoice[] {
  return boards.flatMap((board) =>
    board.variants.map((variant, index) => ({
      id: index === 0 || variant.option === null ? board.id : `${board.id}:cpu=${variant.option}`,
      name: board.name,
      chip: variant.chip,
      clockHz: variant.clock.hz,
    })),
  );
}
