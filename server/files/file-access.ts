/**
 * How files are reached: the disk, with the editor's unsaved buffers laid over it. Synchronous, since the preprocessor asks
 * for headers while it runs. The only place that touches the file system.
 */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { type Decoded, decodeText } from "./text-bytes.js";

export type Reading = Decoded | { readonly kind: "missing" };

export interface FolderEntry {
  readonly name: string;
  readonly folder: boolean;
  /** A symbolic link: followed for libraries, not for walks (a link may lead back up). */
  readonly link: boolean;
}

export interface FileAccess {
  /** The text of a file; `missing` where there is none, `refused` with a reason where it cannot be read as text. */
  read(path: string): Reading;
  /** `file`, `folder`, or undefined where there is nothing. */
  kindOf(path: string): "file" | "folder" | undefined;
  /** Entries in alphabetical order (by code unit, so that every machine sees the same order); empty where unreadable. */
  list(folder: string): readonly FolderEntry[];
  /** Changes whenever the file's content may have changed. */
  stamp(path: string): string;
}

/** The disk as it is. */
export const disk: FileAccess = {
  read(path) {
    try {
      return decodeText(readFileSync(path));
    } catch (error) {
      const code = codeOf(error);
      if (code === "ENOENT" || code === "ENOTDIR" || code === "ENAMETOOLONG") return { kind: "missing" };
      return { kind: "refused", reason: reasonOf(code) };
    }
  },
  kindOf(path) {
    try {
      const found = statSync(path === "" ? "." : path, { throwIfNoEntry: false });
      if (found === undefined) return undefined;
      return found.isDirectory() ? "folder" : "file";
    } catch {
      return undefined;
    }
  },
  list(folder) {
    try {
      return readdirSync(folder === "" ? "." : folder, { withFileTypes: true })
        .map((entry) => {
          const link = entry.isSymbolicLink();
          return {
            name: entry.name,
            folder: link ? disk.kindOf(join(folder, entry.name)) === "folder" : entry.isDirectory(),
            link,
          };
        })
        .sort((a, b) => (a.name < b.name ? -1 : 1));
    } catch {
      return [];
    }
  },
  stamp(path) {
    try {
      const found = statSync(path === "" ? "." : path, { throwIfNoEntry: false });
      return found === undefined ? "none" : `${found.mtimeMs}:${found.size}`;
    } catch {
      return "none";
    }
  },
};

/** No disk at all: for documents that are on none, whose neighbours in the current folder are no neighbours of theirs. */
export const noDisk: FileAccess = {
  read: () => ({ kind: "missing" }),
  kindOf: () => undefined,
  list: () => [],
  stamp: () => "none",
};

/** An unsaved editor buffer. */
export interface Buffer {
  readonly version: number;
  readonly text: string;
}

/** `below`, with buffers (by path) in front. A buffer without a file on disk is found by its path, but in no folder list. */
export function withBuffers(below: FileAccess, buffers: ReadonlyMap<string, Buffer>): FileAccess {
  return {
    read(path) {
      const buffer = buffers.get(path);
      if (buffer === undefined) return below.read(path);
      if (buffer.text.includes("\0"))
        return { kind: "refused", reason: "it is a binary file (it contains zero characters)" };
      return { kind: "text", text: buffer.text };
    },
    kindOf: (path) => (buffers.has(path) ? "file" : below.kindOf(path)),
    list: (folder) => below.list(folder),
    stamp(path) {
      const buffer = buffers.get(path);
      return buffer === undefined ? below.stamp(path) : `buffer ${buffer.version}`;
    },
  };
}

function codeOf(error: unknown): string {
  return error instanceof Error && "code" in error ? String(error.code) : String(error);
}

function reasonOf(code: string): string {
  if (code === "EACCES" || code === "EPERM") return "permission denied";
  if (code === "EISDIR") return "it is a folder";
  return `the system says ${code}`;
}
