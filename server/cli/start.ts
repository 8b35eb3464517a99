/** `npm start`: the main job on the demo sketches, and how to go on from there. */
import { join, relative } from "node:path";
import { main } from "./main.js";

const demos = relative(process.cwd(), join(__dirname, "..", "client", "demo"));

// A reader that has seen enough (`| head`) is no error.
process.stdout.on("error", () => process.exit(0));

async function start(): Promise<void> {
  process.stdout.write("What the pins of the demo sketches put out, worked out from their text alone:\n\n");
  await main(["report", demos], {
    out: (text) => process.stdout.write(text),
    complain: (line) => process.stderr.write(`${line}\n`),
    serve: async () => 2,
    beside: __dirname,
  });
  process.stdout.write(`
Your own sketch:    node dist/pulsewright.js report PATH
In VS Code:         npm run package, then "Extensions: Install from VSIX..." and open a sketch
`);
}

void start();
