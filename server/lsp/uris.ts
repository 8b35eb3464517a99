/** URIs of documents ↔ paths. A document that is on no disk (untitled, virtual) keeps its URI as its path. */
import { fileURLToPath, pathToFileURL } from "node:url";

export function pathOf(uri: string): string {
  if (!uri.startsWith("file:")) return uri;
  try {
    return fileURLToPath(uri);
  } catch {
    // A file URI of another machine (`file://server/…` on Linux): readable only as an open buffer.
    return uri;
  }
}

/** For a path that no open document gave us. */
export function uriOf(path: string): string {
  return /^[a-z][a-z0-9+.-]+:/i.test(path) && !/^[a-z]:[\\/]/i.test(path) ? path : pathToFileURL(path).href;
}
