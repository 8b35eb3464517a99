/** The command: `pulsewright report PATH…`, `pulsewright serve --stdio`. Hands over at once; everything is tested through `main`. */
import { spawn } from "node:child_process";
import { join } from "node:path";
import { main } from "./main.js";

// The server is a bundle of its own beside this one: the two doors do not know each other.
const serve = (): Promise<number> =>
  new Promise((resolve) => {
    const server = spawn(process.execPath, [join(__dirname, "server.js"), "--stdio"], { stdio: "inherit" });
    server.on("error", () => resolve(2));
    server.on("exit", (code) => resolve(code ?? 2));
  });

// A reader that has seen enough (`| head`) is no error.
process.stdout.on("error", () => process.exit(process.exitCode ?? 0));

void main(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  complain: (line) => process.stderr.write(`${line}\n`),
  serve,
  beside: __dirname,
}).then((status) => {
  process.exitCode = status;
});
