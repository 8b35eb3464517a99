/** Edits applied in memory: to one text, and to the sources of a whole sketch. */
import type { SketchSources, SourceFile } from "../preprocess/source.js";
import type { TextEdit } from "./text-edit.js";

/** The text with all edits made. Edits count in the old text; those at one place keep their order. Throws RangeError where two overlap. */
export function applyEdits(text: string, edits: readonly TextEdit[]): string {
  const ordered = edits
    .map((edit, index) => ({ edit, index }))
    .sort(
      (left, right) =>
        left.edit.span.start - right.edit.span.start ||
        left.edit.span.end - right.edit.span.end ||
        left.index - right.index,
    );
  let result = "";
  let at = 0;
  for (const { edit } of ordered) {
    if (edit.span.start < at || edit.span.end > text.length) throw new RangeError("edits overlap or leave the text");
    result += text.slice(at, edit.span.start) + edit.text;
    at = edit.span.end;
  }
  return result + text.slice(at);
}

/** The sketch with the edits made in whichever of its files they name. Files outside stay as they are. */
export function applyToSources(sources: SketchSources, edits: readonly TextEdit[]): SketchSources {
  const byPath = new Map<string, TextEdit[]>();
  for (const edit of edits) {
    const list = byPath.get(edit.span.path);
    if (list === undefined) byPath.set(edit.span.path, [edit]);
    else list.push(edit);
  }
  const changed = (file: SourceFile): SourceFile => {
    const own = byPath.get(file.path);
    return own === undefined ? file : { ...file, text: applyEdits(file.text, own) };
  };
  return {
    tabs: sources.tabs.map(changed),
    units: sources.units.map(changed),
    include(name, from, angled) {
      const file = sources.include(name, from, angled);
      return file === undefined ? undefined : changed(file);
    },
  };
}

/** An offset of the old text in the new one; inside a replaced stretch it is the stretch's new start. */
export function movedOffset(offset: number, edits: readonly TextEdit[]): number {
  let moved = offset;
  for (const edit of edits) {
    if (edit.span.end <= offset) moved += edit.text.length - (edit.span.end - edit.span.start);
    else if (edit.span.start < offset) moved -= offset - edit.span.start;
  }
  return moved;
}
