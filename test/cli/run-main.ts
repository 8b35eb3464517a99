/** The command line in this process, with everything it prints. */
import { join } from "node:path";
import { main } from "../../server/cli/main.js";

export interface Ran {
  readonly status: number;
  readonly out: string;
  /** Lines on stderr. */
  readonly complaints: readonly string[];
}

export async function run(...words: string[]): Promise<Ran> {
  let out = "";
  const complaints: string[] = [];
  const status = await main(words, {
    out: (text) => {
      out += text;
    },
    complain: (line) => void complaints.push(line),
    serve: async () => 0,
    beside: join(__dirname, "..", ".."),
  });
  return { status, out, complaints };
}
