/**
 * How built-in macros are written down: one per line, `NAME body` or `NAME(parameters) body`; `? ` before a name that
 * gives way to an earlier definition; `= NAME NAME …` for names that count as defined but stay as they are, so that
 * the stages after this one see the call or the register.
 */
import { lazyMacro, type Macro, selfMacro } from "./macro.js";

export function readLines(lines: string, header: number): Macro[] {
  const macros: Macro[] = [];
  for (const line of lines.split("\n")) {
    if (line.startsWith("= ")) {
      for (const name of line.slice(2).split(" ")) macros.push(selfMacro(name, header));
    } else if (line.length > 0) macros.push(readLine(line, header));
  }
  return macros;
}

function readLine(line: string, header: number): Macro {
  const yields = line.startsWith("? ");
  const text = yields ? line.slice(2) : line;
  const [, name, list, body] = /^(\w+)(\([^)]*\))? ?(.*)$/.exec(text) as unknown as [string, string, string?, string?];
  if (list === undefined) return lazyMacro(name, undefined, false, body ?? "", header, yields);
  const variadic = list.includes("...");
  const names = list === "()" ? [] : list.slice(1, -1).split(",");
  return lazyMacro(
    name,
    variadic ? [...names.slice(0, -1), "__VA_ARGS__"] : names,
    variadic,
    body ?? "",
    header,
    yields,
  );
}
