/** The command: `pulsewright report PATH…`, `pulsewright serve --stdio`. Hands over at once; everything is tested through `main`. */
import { createRequire } from "node:module";
import { join } from "node:path";
import { main } from "./main.js";

// The server is a bundle of its own beside this one: the two doors do not know each other. It ends the process itself.
const serve = (): Promise<number> => {
  createRequire(__filename)(join(__dirname, "server.js"));
  return new Promise(() => undefined);
};

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
