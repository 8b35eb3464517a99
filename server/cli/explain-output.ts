/** The answer of `pulsewright explain` as JSON by the contract, and as text for the bench. */
import { showSpread } from "../../shared-model/clock-spread.js";
import { highest, lowest } from "../../shared-model/readings/compare.js";
import type { ExplainReport, ReportedRegister } from "../../shared-model/report.js";
import type { Analysis, PinHistory } from "../analysis.js";
import { clockSpread } from "../look/bench-clock.js";
import { pinLabel } from "../look/look.js";
import { showBoundsHz, showClock, showHex, showHz } from "../look/show.js";
import type { Explanation } from "../readings/explanation.js";
import type { JudgedReading } from "../readings/fitted-reading.js";
import type { ExplainWords } from "./explain-request.js";

export interface Explained {
  readonly words: ExplainWords;
  readonly analysis: Analysis;
  readonly pin: PinHistory;
  readonly judged: JudgedReading;
  readonly explanations: readonly Explanation[];
}

export function explainJson({ words, pin, judged, explanations }: Explained): string {
  const report: ExplainReport = {
    schema: 1,
    pin: pin.pin,
    reading: words.text,
    fits: judged.fits,
    predicted: judged.predicted,
    explanations: explanations.map(({ frequencyHz, registers, slip, rank }) => ({
      frequencyHz,
      registers,
      slip,
      rank,
    })),
  };
  return `${JSON.stringify(report, null, 2)}\n`;
}

const VERDICT: Readonly<Record<JudgedReading["fits"], string>> = {
  yes: "fits",
  no: "does not fit",
  unknown: "not known whether it fits",
};

export function explainText({ words, analysis, pin, judged, explanations }: Explained): string {
  const { target } = analysis;
  const { frequency } = words.reading;
  const board = target.board === null ? `bare ${target.chip.id}` : target.board.name;
  const open =
    frequency === undefined
      ? ""
      : `  (${showBoundsHz({ min: lowest(frequency), max: highest(frequency) })} by its digits)`;
  const whose = words.sketch === undefined ? "the core's analogWrite alone" : words.sketch;
  const lines = [
    `${pinLabel(analysis, pin)} of ${board} at ${showClock(target.clockHz)}, clock ${showSpread(clockSpread(analysis))}`,
    `  read       ${words.text}${frequency?.stated === true ? "" : open}`,
    `  predicted  ${judged.predicted === "" ? "nothing" : judged.predicted}  (${whose})`,
    `  ${VERDICT[judged.fits]}${judged.fits === "no" ? "" : `: ${judged.because}`}`,
  ];
  if (judged.fits === "yes" && words.sketch !== undefined) return `${lines.join("\n")}\n`;
  lines.push("");
  if (explanations.length === 0) {
    lines.push("Nothing near explains it: check the pin, the board and which sketch is on it.");
    return `${lines.join("\n")}\n`;
  }
  lines.push(
    words.sketch === undefined
      ? "What gives this reading, usual settings first:"
      : "What would give this reading, the smallest slip first:",
  );
  const width = Math.max(...explanations.map(({ frequencyHz }) => showHz(frequencyHz).length));
  for (const { rank, frequencyHz, slip, registers } of explanations) {
    lines.push(`  ${rank}  ${showHz(frequencyHz).padEnd(width)}  ${slip}`);
    const held = registerWords(registers);
    if (held !== "") lines.push(`     ${"".padEnd(width)}  ${held}`);
  }
  return `${lines.join("\n")}\n`;
}

/** `TCCR2B = 0b00001011, OCR2A = 250 (0xFA)`: what to type, or to look for. */
function registerWords(registers: Readonly<Record<string, ReportedRegister>>): string {
  return Object.entries(registers)
    .map(([name, value]) => {
      const values = "values" in value ? value.values : [];
      const control = name.startsWith("TCCR");
      const shown = values.map((each) =>
        control ? `0b${each.toString(2).padStart(8, "0")}` : `${each} (${showHex(each)})`,
      );
      return `${name} = ${shown.join(" or ")}`;
    })
    .join(", ");
}
