/** Whether there is anything for us to do: sketches by name, C and C++ files by what they include. */
import * as vscode from "vscode";

/** Schemes of documents that a person edits; old versions in a comparison are none of ours. */
const SCHEMES = ["file", "untitled", "vscode-vfs"];

/** The documents that the server is told about. It answers for those that belong to a sketch. */
export const DOCUMENTS = SCHEMES.flatMap((scheme) => [
  { scheme, language: "arduino" },
  { scheme, language: "cpp" },
  { scheme, language: "c" },
  { scheme, pattern: "**/*.{ino,pde}" },
]);

/** A document that makes it worth starting the server. */
export function isSketchDocument(document: vscode.TextDocument): boolean {
  if (!SCHEMES.includes(document.uri.scheme)) return false;
  if (document.languageId === "arduino" || /\.(?:ino|pde)$/i.test(document.uri.path)) return true;
  return (
    (document.languageId === "cpp" || document.languageId === "c") &&
    /#\s*include\s*[<"](?:avr\/|Arduino\.h|util\/delay)/.test(document.getText())
  );
}

/** Whether the workspace holds a sketch; honours the user's excludes. */
export async function sketchInWorkspace(): Promise<boolean> {
  const found = await vscode.workspace.findFiles("**/*.{ino,pde}", undefined, 1);
  return found.length > 0;
}
