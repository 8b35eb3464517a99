/** Puts VS Code (as the npm package code-server carries it) and the browser driver in place, once. Nothing of it is compiled. */
import { execFileSync } from "node:child_process";
import { existsSync, symlinkSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
/** VS Code's server inside the package. */
export const vscode = join(here, "node_modules", "code-server", "lib", "vscode");

function npm(words, cwd) {
  execFileSync("npm", [...words, "--ignore-scripts", "--no-audit", "--no-fund"], {
    cwd,
    stdio: ["ignore", "ignore", "inherit"],
  });
}

export function install() {
  if (existsSync(join(vscode, "node_modules.asar"))) return;
  npm(["ci"], here);
  npm(["install", "--omit=dev"], vscode);
  npm(["install", "--omit=dev"], join(vscode, "extensions"));
  symlinkSync("node_modules", join(vscode, "node_modules.asar"));
}
