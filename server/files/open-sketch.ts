/** What both doors do before the engine runs: find the sketch's text and decide board and clock. */

import { relative, resolve } from "node:path";
import type { Target } from "../../shared-model/chip.js";
import type { Specification } from "../../shared-model/specifications.js";
import { resolveTarget, type TargetRequest, type TargetSource } from "../../shared-model/target.js";
import { type OwnSpecifications, readOwnSpecifications } from "../../shared-model/wants/own-specifications.js";
import type { CoreSources, Gap } from "../preprocess/source.js";
import { coreSources } from "./core-sources.js";
import type { FileAccess } from "./file-access.js";
import { inside } from "./path-names.js";
import { projectBoard } from "./project-file.js";
import type { SketchPlace } from "./sketch-place.js";
import { type LoadedSketch, loadSketch, type SourceOptions } from "./sketch-sources.js";
import { targetInComments } from "./target-comment.js";
import { workspaceSettings } from "./workspace-settings.js";

export interface OpenOptions extends SourceOptions {
  readonly commandLine?: TargetRequest["commandLine"];
  readonly settings?: TargetSource;
  /** Folder of an installed core (the one that holds `cores` and `variants`), to be executed in place of the built-in model. */
  readonly core?: string;
  /** Named specifications out of the editor's settings, as these have them; absent: looked for in the folders above the sketch. */
  readonly specifications?: unknown;
}

export interface OpenedSketch {
  readonly kind: "opened";
  readonly loaded: LoadedSketch;
  readonly target: Target;
  /** Named specifications of the workspace's own. */
  readonly specifications: readonly Specification[];
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
  const { specifications, problems } = ownSpecifications(place, options, files);
  for (const reason of problems) gaps.push({ reason, span: null, affects: [] });
  if (options.core === undefined) return { kind: "opened", loaded, target, specifications, gaps };
  const core = coreSources(options.core, target, loaded, files);
  if (typeof core !== "string") return { kind: "opened", loaded: withCore(loaded, core), target, specifications, gaps };
  gaps.push({ reason: `${options.core}: ${core}; the built-in model of the core is used`, span: null, affects: [] });
  return { kind: "opened", loaded, target, specifications, gaps };
}

/** From the caller's settings, else from those that the editor would find. */
function ownSpecifications(place: SketchPlace, options: OpenOptions, files: FileAccess): OwnSpecifications {
  if ("specifications" in options) return readOwnSpecifications(options.specifications);
  const found = workspaceSettings(resolve(place.folder), files);
  if (found.kind === "none") return { specifications: [], problems: [] };
  const path = relative(resolve(""), found.path);
  if (found.kind === "unreadable")
    return { specifications: [], problems: [`${path}: no specifications taken from there: ${found.reason}`] };
  const own = readOwnSpecifications(found.specifications);
  return { ...own, problems: own.problems.map((problem) => `${path}: ${problem}`) };
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
