/** The sketch's text as the stages get it. No stage reads a file: what is not here does not exist for it. */

export interface SourceFile {
  /** The path as the caller named it; the same string in every span. */
  readonly path: string;
  readonly text: string;
  /** `sketch`: the sketch's own folder; `library`: found through a library folder; `core`: of the core package. */
  readonly kind: "sketch" | "library" | "core";
}

/** The core's own sources, where they were named: executed in place of the built-in model. */
export interface CoreSources {
  /** By name, in place of the built-in headers of that name: `Arduino.h`, the variant's `pins_arduino.h` … */
  readonly headers: ReadonlyMap<string, SourceFile>;
  /** Units that define something which the program names: as out of an archive, others are left out. */
  readonly units: readonly SourceFile[];
}

/**
 * The files that make one program. `tabs` are the .ino/.pde files in the order in which the build joins them;
 * `units` the .cpp and .c files beside them and of the libraries in use. `include` finds a header.
 */
export interface SketchSources {
  readonly tabs: readonly SourceFile[];
  readonly units: readonly SourceFile[];
  readonly core?: CoreSources;
  /** `from` is the path of the including file; `angled` says `<…>`. Undefined where there is no such file. */
  include(name: string, from: string, angled: boolean): SourceFile | undefined;
}

/** Something that was not understood or not followed: place, reason, what became unknown by it. */
export interface Gap {
  readonly reason: string;
  /** Offsets into the source file's own text; null where the whole program is meant. */
  readonly span: import("../../shared-model/span.js").Span | null;
  /** `timer 1`, `pin 9`, or a name of the sketch. */
  readonly affects: readonly string[];
}
