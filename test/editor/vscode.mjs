/** A fresh VS Code server with our package installed, on a port of its own choice, and a fresh browser in front of it. */
import { execFileSync, spawn } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { vscode } from "./install.mjs";

const SETTINGS = {
  "security.workspace.trust.enabled": false,
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
  "workbench.welcomePage.walkthroughs.openOnInstall": false,
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "update.mode": "none",
  "git.enabled": false,
  "files.autoSave": "off",
  "editor.hover.delay": 150,
  // Below the line, so that a picture shows what stands above it.
  "editor.hover.above": false,
  "editor.accessibilitySupport": "off",
  "editor.minimap.enabled": false,
  "telemetry.telemetryLevel": "off",
};

/** `place`: an empty folder. Resolves with the address and `stop`. */
export async function startVsCode(place, vsix, settings = {}) {
  const data = join(place, "data");
  const extensions = join(place, "extensions");
  mkdirSync(join(data, "data", "User"), { recursive: true });
  mkdirSync(extensions, { recursive: true });
  writeFileSync(join(data, "data", "User", "settings.json"), JSON.stringify({ ...SETTINGS, ...settings }));
  const main = join(vscode, "out", "server-main.js");
  const common = ["--server-data-dir", data, "--extensions-dir", extensions, "--accept-server-license-terms"];
  const env = { ...process.env, EXTENSIONS_GALLERY: '{"serviceUrl":""}' };
  // It complains at length about a logger that was not compiled: what it says is shown only where it fails.
  execFileSync(process.execPath, [main, ...common, "--install-extension", vsix], { env, stdio: "pipe" });

  const server = spawn(
    process.execPath,
    [main, "--host", "127.0.0.1", "--port", "0", "--without-connection-token", "--telemetry-level", "off", ...common],
    { env, stdio: ["ignore", "pipe", "pipe"] },
  );
  let log = "";
  const port = await new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error(`VS Code did not start:\n${log}`)), 60_000);
    const read = (bytes) => {
      log += bytes.toString();
      const found = /listening on (\d+)/.exec(log);
      if (found !== null) {
        clearTimeout(timer);
        resolve(Number(found[1]));
      }
    };
    server.stdout.on("data", read);
    server.stderr.on("data", read);
    server.on("exit", (code) => reject(new Error(`VS Code ended with ${code}:\n${log}`)));
  });
  return {
    port,
    log: () => log,
    stop: () =>
      new Promise((resolve) => {
        server.removeAllListeners("exit");
        server.on("exit", resolve);
        server.kill();
        setTimeout(() => server.kill("SIGKILL"), 5_000).unref();
      }),
  };
}
