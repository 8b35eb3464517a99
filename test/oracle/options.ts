/** What the oracle is asked for on its command line. */
import type { BoardId } from "./compile.js";

export const USAGE = `usage: node test/oracle/run.mjs [--hand] [--core] [--count N] [--seed S] [--ms N] [--board uno|nano|mega] [PATH...]
                                  [--keep DIR] [--observe] [--json FILE] [--list] [--sheet] [--own-core]
       node test/oracle/run.mjs --plans N [--seed S] [--list]
       node test/oracle/run.mjs --shrink [--inexact] [--seconds N] [--board B] PATH...
  --hand     the sketches under test/oracle/sketches
  --core     one tiny sketch for each call of the core
  --count N  N random sketches, from --seed S (default 1)
  PATH       sketches of your own, for --board (default uno)
  --ms N     simulated milliseconds at least for random sketches (default 300, with inputs four times 200)
  --keep DIR writes the random sketches there and leaves them
  --observe  only compiles and simulates, and prints what was seen
  --json F   writes every verdict to F
  --list     lists the inexact sketches too
  --plans N  N random wants: planned, the edited sketch compiled and run, frequency, duty and switch-over measured
  --shrink   makes each PATH as small as it can be while it fails in the same way; with --inexact also what is only
             not exact. Random sketches that fail are shrunk without being asked, for at most a minute each
  --seconds  how long a sketch may be shrunk (default 300)
  --sheet    a chip as the data sheet describes it, where real parts are known to differ
  --own-core the report executes the packaged core's own sources in place of the built-in model`;

export interface Options {
  hand: boolean;
  core: boolean;
  count: number;
  seed: number;
  board: BoardId;
  keep: string | null;
  observe: boolean;
  json: string | null;
  list: boolean;
  sheet: boolean;
  ownCore: boolean;
  shrink: boolean;
  inexact: boolean;
  seconds: number;
  milliseconds: number | null;
  paths: string[];
}

export function parseOptions(args: readonly string[]): Options | string {
  const options: Options = {
    hand: false,
    core: false,
    count: 0,
    seed: 1,
    board: "uno",
    keep: null,
    observe: false,
    json: null,
    list: false,
    sheet: false,
    ownCore: false,
    shrink: false,
    inexact: false,
    seconds: 300,
    milliseconds: null,
    paths: [],
  };
  for (let at = 0; at < args.length; at++) {
    const arg = args[at]!;
    const value = (): string => args[++at] ?? "";
    if (arg === "--hand") options.hand = true;
    else if (arg === "--core") options.core = true;
    else if (arg === "--observe") options.observe = true;
    else if (arg === "--list") options.list = true;
    else if (arg === "--sheet") options.sheet = true;
    else if (arg === "--own-core") options.ownCore = true;
    else if (arg === "--shrink") options.shrink = true;
    else if (arg === "--inexact") options.inexact = true;
    else if (arg === "--seconds") options.seconds = Number(value());
    else if (arg === "--count") options.count = Number(value());
    else if (arg === "--seed") options.seed = Number(value());
    else if (arg === "--ms") options.milliseconds = Number(value());
    else if (arg === "--keep") options.keep = value();
    else if (arg === "--json") options.json = value();
    else if (arg === "--board") options.board = value() as BoardId;
    else if (arg.startsWith("-")) return USAGE;
    else options.paths.push(arg);
  }
  if (!Number.isSafeInteger(options.count) || !Number.isSafeInteger(options.seed)) return USAGE;
  if (!(options.seconds > 0) || (options.shrink && options.paths.length === 0)) return USAGE;
  if (options.milliseconds !== null && !(options.milliseconds > 0)) return USAGE;
  if (!["uno", "nano", "mega"].includes(options.board)) return USAGE;
  if (!options.hand && !options.core && options.count === 0 && options.paths.length === 0) return USAGE;
  return options;
}
