/** What both doors do before the engine runs: find the sketch's text and decide board and clock. */

import type { Target } from "../../shared-model/chip.js";
import { resolveTarget, type TargetRequest, type TargetSource } from "../../shared-model/target.js";
import type { CoreSources, Gap } from "../preprocess/source.js";
import { coreSources } from "./core-sources.js";
import type { FileAccess } from "./file-access.js";
import { inside } from "./path-names.js";
import { projectBoard } from "./project-file.js";
import type { SketchPlace } from "./sketch-place.js";
import { type LoadedSketch, loadSketch, type SourceOptions } from "./sketch-sources.js";
import { targetInComments } from "./target-comment.js";

export interface OpenOptions extends SourceOptions {
  readonly commandLine?: TargetRequest["commandLine"];
  readonly settings?: TargetSource;
  /** Folder of an installed core (the one that holds `cores` and `variants`), to be executed in place of the built-in model. */
  readonly core?: string;
}

export interface OpenedSketch {
  readonly kind: "opened";
  readonly loaded: LoadedSketch;
  readonly target: Target;
  /** Files not read; a project file that could not be used. */
  readonly gaps: readonly Gap[];
}

export type Opening =
  | OpenedSketch
  /** The main file cannot be read. */
  | { readonly kind: "unreadable"; readonly path: string; readonly reason: string }
  /** Board or clock cannot be what was asked for. */
  | { readonly kind: "no target"; readonly loaded: LoadedSketch; readonly reason: string };

export function openSketch(place: SketchPlace, options: OpenOptions, files: FileAccess): Opening {
  const loaded = loadSketch(place, withCoreFolder(options), files);
  if ("unreadable" in loaded) return { kind: "unreadable", path: place.path, reason: loaded.unreadable };

  const project = projectBoard(place.folder, files);
  const comment = targetInComments(loaded.own);
  const named = options.commandLine?.board ?? comment?.board ?? options.settings?.board;
  const gaps = [...loaded.gaps];
  if (project.kind === "unreadable") {
    // Another source has the say: then the project file does not matter.
    if (named === undefined)
      gaps.push({
        reason: `${project.path} names no board that can be used: ${project.reason}`,
        span: null,
        affects: ["board"],
      });
  }
  const answer = resolveTarget({
    commandLine: options.commandLine,
    comment,
    settings: options.settings,
    projectFile: project.kind === "board" ? { board: project.boardId } : undefined,
  });
  if ("problem" in answer) return { kind: "no target", loaded, reason: answer.problem };
  const { target } = answer;
  if (options.core === undefined) return { kind: "opened", loaded, target, gaps };
  const core = coreSources(options.core, target, loaded, files);
  if (typeof core !== "string") return { kind: "opened", loaded: withCore(loaded, core), target, gaps };
  gaps.push({ reason: `${options.core}: ${core}; the built-in model of the core is used`, span: null, affects: [] });
  return { kind: "opened", loaded, target, gaps };
}

/** What a core's folder holds may be read, and its libraries are there to be included. */
function withCoreFolder(options: OpenOptions): SourceOptions {
  const { core } = options;
  if (core === undefined) return options;
  return { ...options, libraries: [...options.libraries, inside(core, "libraries")], also: [core] };
}

function withCore(loaded: LoadedSketch, core: CoreSources): LoadedSketch {
  return { ...loaded, sources: { ...loaded.sources, core } };
}
