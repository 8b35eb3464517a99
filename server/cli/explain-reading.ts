/** `pulsewright explain`: what a bench reading tells, with a sketch or without one; the exit status. */
import type { ChannelFact, Target } from "../../shared-model/chip.js";
import { resolveTarget } from "../../shared-model/target.js";
import { analyse } from "../analyse.js";
import type { Analysis, PinHistory } from "../analysis.js";
import { DEFAULT_LIMITS } from "../limits.js";
import { portNamed } from "../look/wanted-pin.js";
import { createParser, type Parser } from "../parse/parse.js";
import { explain } from "../readings/explain.js";
import { fitReading } from "../readings/fitted-reading.js";
import { type Explained, explainJson, explainText } from "./explain-output.js";
import type { ExplainWords, Problem } from "./explain-request.js";
import { reportOn } from "./report-sketches.js";

/** 0: it fits or is explained. 1: nothing explains it. 2: the words cannot be made sense of, or the sketch not be read. */
export async function explainReading(
  words: ExplainWords,
  beside: string,
  out: (text: string) => void,
  complain: (line: string) => void,
): Promise<0 | 1 | 2> {
  const parser = await createParser("auto", { directories: [beside] });
  const explained = words.sketch === undefined ? bare(words, parser) : inSketch(words, words.sketch, parser);
  if ("problem" in explained) {
    complain(`pulsewright: ${explained.problem}`);
    return 2;
  }
  out(words.format === "json" ? explainJson(explained) : explainText(explained));
  return explained.explanations.length > 0 || explained.judged.fits === "yes" ? 0 : 1;
}

function inSketch(words: ExplainWords, path: string, parser: Parser): Explained | Problem {
  const { board, clockHz, libraries, core } = words;
  const request = { paths: [path], board, clockHz, libraries, core } as const;
  const { sheets, complaints } = reportOn(request, parser);
  const [complaint] = complaints;
  if (complaint !== undefined) return { problem: `${complaint.path}: ${complaint.reason}` };
  const [sheet] = sheets;
  if (sheet === undefined || sheets.length > 1)
    return { problem: `${path}: there are ${sheets.length} sketches here, and a reading is of one` };
  const { analysis } = sheet;
  const pin = pinOf(analysis, words.pin);
  if ("problem" in pin) return pin;
  const judged = fitReading(analysis, words.reading, pin);
  const itself = { settings: false, itself: "no slip: what the sketch sets" };
  const explanations = explain(analysis, words.reading, pin, itself);
  // A reading that fits needs no slip: what else would give it is noise.
  return {
    words,
    analysis,
    pin,
    judged,
    explanations: judged.fits === "yes" ? explanations.slice(0, 1) : explanations,
  };
}

/** Without a sketch: what the core leaves of the timer, with analogWrite on the pin, and every setting that gives the reading. */
function bare(words: ExplainWords, parser: Parser): Explained | Problem {
  const { board, clockHz } = words;
  const answer = resolveTarget({
    commandLine: { ...(board === undefined ? {} : { board }), ...(clockHz === undefined ? {} : { clockHz }) },
  });
  if ("problem" in answer) return answer;
  const { target } = answer;
  const empty = analysed("void setup() {}\nvoid loop() {}\n", target, parser);
  const port = portNamed(empty, words.pin);
  if (port === undefined) return { problem: `${target.boardId} has no pin "${words.pin}"` };
  const channel = target.chip.timers.flatMap(({ channels }) => channels).find((each) => each.port === port);
  if (channel === undefined)
    return { problem: `no timer drives ${words.pin} of ${target.boardId}: without the sketch nothing can be told` };
  const analysis = analysed(oneOutput(target, channel), target, parser);
  const pin = pinOf(analysis, words.pin);
  if ("problem" in pin) return pin;
  const judged = fitReading(analysis, words.reading, pin);
  const itself = { settings: true, itself: "no slip: what the core sets for analogWrite" };
  return { words, analysis, pin, judged, explanations: explain(analysis, words.reading, pin, itself) };
}

function pinOf(analysis: Analysis, name: string): PinHistory | Problem {
  const named = analysis.comments.find(
    ({ comment }) => (comment.kind === "want" || comment.kind === "reading") && comment.pin === name,
  );
  const port = portNamed(analysis, name);
  const pin = analysis.pins.find((each) => (port === undefined ? each.pin === named?.pin : each.port === port));
  if (pin !== undefined) return pin;
  if (port === undefined) return { problem: `${analysis.target.boardId} has no pin "${name}"` };
  return { problem: `the sketch does nothing with ${name}` };
}

/** The smallest sketch in which the unit drives its pin. */
function oneOutput(target: Target, { unit, port, compare, com }: ChannelFact): string {
  const number = target.pins.find((pin) => pin.port === port && pin.analogWriteUnit === unit)?.number;
  if (number !== undefined) return `void setup() {}\nvoid loop() { analogWrite(${number}, 100); }\n`;
  const direction = target.chip.ports.find(({ letter }) => letter === port[1])?.direction;
  return `void setup() { ${direction} |= ${2 ** Number(port[2])}; ${com.register} |= ${2 << com.shift}; ${compare} = 100; }\nvoid loop() {}\n`;
}

function analysed(text: string, target: Target, parser: Parser): Analysis {
  const file = { path: "pin.ino", text, kind: "sketch" } as const;
  return analyse({
    sources: { tabs: [file], units: [], include: () => undefined },
    target,
    parser,
    limits: DEFAULT_LIMITS,
    stop: () => {},
  });
}
