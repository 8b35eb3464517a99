/** Mode bits are spread over two registers: the half that was not written decides too. */
import type { ChannelFact, ModeFact, TimerFact } from "../../shared-model/chip.js";
import type { Analysis, RegisterWrite, TimerState } from "../analysis.js";
import { maskedBits, neverTouched } from "../look/core-bits.js";
import { chain, namedBit } from "../look/expression.js";
import { lastingStates, makerOf, sketchWrites, unitLabel } from "../look/look.js";
import { modeWith, sketchMeans } from "../look/mode-evidence.js";
import { namingStyle } from "../look/naming.js";
import { bitName } from "../look/register-fields.js";
import { either, listed } from "../look/show.js";
import { channelSnapshot, clocksOf, fieldValues, topRegister } from "../look/timer-view.js";
import { modeWords } from "../look/top-name.js";
import { clearBits, setBits } from "./bit-edits.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, lineAfter, lineBefore, pinsOfTimer, textOf } from "./fix.js";

export const halfAMode: FindingRule = {
  id: "half-a-mode",
  severity: "warning",
  says: "The mode bits in the timer's two control registers together select a reserved mode, another mode than the sketch works for, or one in which the output setting makes no pulse.",
  why: "WGM bits live in TCCRnA and TCCRnB. Writing one half leaves the other as the core's init set it, and the timer counts in a mode that nobody chose.",
  source: "the chip's data sheet, waveform generation mode tables; the core's init in wiring.c",
  fires: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21);
  TCCR2B = _BV(WGM22) | _BV(CS22);
  OCR2A = 249;
  OCR2B = 100;
}

void loop() {}
`,
  quiet: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS22);
  OCR2A = 249;
  OCR2B = 100;
}

void loop() {}
`,
  whenFine: "A mode that is only passed through between two writes is no finding.",
  check(analysis, report) {
    for (const timer of analysis.target.chip.timers) {
      for (const state of lastingStates(analysis, timer.number)) {
        const selects = fieldValues(timer.modeField, state.snapshot.registers);
        const select = selects.length === 1 ? selects[0]! : undefined;
        const got = select === undefined ? undefined : modeWith(timer, select);
        if (got === undefined || clocksOf(timer, state.snapshot).every((clock) => clock.kind === "stopped")) continue;
        const maker = modeMaker(analysis, timer, state);
        if (maker === undefined) continue;
        const found =
          got.family === "reserved"
            ? reserved(analysis, timer, state, got, maker)
            : (unlikely(analysis, timer, got, maker) ?? levelInPlaceOfPulse(analysis, timer, state, got, maker));
        if (found !== null)
          report({
            message: found.message,
            span: maker.span,
            related: otherHalf(analysis, timer, state, maker),
            fixes: found.fixes,
          });
      }
    }
  },
};

interface Slip {
  readonly message: string;
  readonly fixes: readonly Fix[];
}

/** The newest write that set mode bits of this state. */
function modeMaker(analysis: Analysis, timer: TimerFact, state: TimerState): RegisterWrite | undefined {
  return makerOf(analysis, state.from, (write) =>
    timer.modeField.parts.some((part) => part.register === write.register),
  );
}

function otherHalf(analysis: Analysis, timer: TimerFact, state: TimerState, maker: RegisterWrite) {
  const other = makerOf(
    analysis,
    state.from,
    (write) =>
      write.register !== maker.register && timer.modeField.parts.some((part) => part.register === write.register),
  );
  return other === undefined ? [] : [{ span: other.span, message: "the other half of the mode is set here" }];
}

function reserved(analysis: Analysis, timer: TimerFact, state: TimerState, got: ModeFact, maker: RegisterWrite): Slip {
  const bits = got.select.toString(2).padStart(timer.modeField.width, "0");
  const ways: { readonly words: string; readonly filled: boolean; readonly fix: Fix }[] = [];
  for (const { name, register, at } of modeBits(analysis, timer)) {
    const bit = 1 << at;
    const mode = modeWith(timer, got.select ^ bit);
    if (mode === undefined || mode.family === "reserved" || mode.family === "normal") continue;
    const from = topRegister(timer, mode);
    const sets = (got.select & bit) === 0;
    const write = makerOf(analysis, state.from, (candidate) => candidate.register === register);
    ways.push({
      words: `${sets ? "set" : "clear"} ${name} for ${modeWords(timer, mode)}`,
      filled: from === null || analysis.writes.some((each) => each.register.startsWith(from)),
      fix: changingFix(
        `${sets ? "Set" : "Clear"} ${name}: ${modeWords(timer, mode)}`,
        `timer ${timer.number} then counts in a mode that the data sheet describes`,
        pinsOfTimer(analysis, timer.number),
        () =>
          sets
            ? setBits(analysis, register, [name], write, maker.span)
            : clearBits(analysis, register, [name], write, maker.span),
      ),
    });
  }
  // A mode that takes its TOP from a register that the sketch never fills is hardly the one that was meant.
  const likely = ways.filter((each) => each.filled);
  const told = (likely.length > 0 ? likely : ways).slice(0, 2).map((each) => each.words);
  const way = told.length === 0 ? "Choose another mode." : `${capital(either(told))}.`;
  const top = timer.modeField.width - 1;
  return {
    message: `Timer ${timer.number} is in a reserved mode: its bits ${timer.modeField.name}${top}..0 are ${bits}. ${way}`,
    fixes: likely.map((each) => each.fix),
  };
}

/** A write of one half that relies on the other as the core left it, where the sketch works for the mode without that. */
function unlikely(analysis: Analysis, timer: TimerFact, got: ModeFact, maker: RegisterWrite): Slip | null {
  for (const part of timer.modeField.parts) {
    const mask = ((1 << part.width) - 1) << part.shift;
    if (part.register === maker.register || !neverTouched(analysis, part.register, mask)) continue;
    // A line that sets the whole register has chosen these bits, though they are the core's.
    if (sketchWrites(analysis).some((write) => write.register === part.register && write.operator === "=")) continue;
    const left = (got.select >> part.at) & ((1 << part.width) - 1);
    if (left === 0) continue;
    const meant = modeWith(timer, got.select & ~(left << part.at));
    if (meant === undefined || meant.family === "reserved" || !sketchMeans(analysis, timer, meant, got)) continue;
    const names = modeBits(analysis, timer)
      .filter((bit) => bit.register === part.register && (got.select & (1 << bit.at)) !== 0)
      .map((bit) => bit.name);
    return {
      message: `Timer ${timer.number} runs in ${modeWords(timer, got)}, not in ${modeWords(timer, meant)}: the core's init left ${listed(names)} set in ${part.register}. Write ${part.register} = 0 as well.`,
      fixes: otherHalfFix(analysis, timer, maker, part.register, meant),
    };
  }
  return null;
}

/** `TCCR1A = 0;` before the first line of the same function that sets the timer: what is written after it then arrives. */
function otherHalfFix(
  analysis: Analysis,
  timer: TimerFact,
  maker: RegisterWrite,
  register: string,
  meant: ModeFact,
): readonly Fix[] {
  const first = sketchWrites(analysis)
    .filter((write) => write.timer === timer.number && write.inFunction === maker.inFunction)
    .filter((write) => write.span.path === maker.span.path && !write.register.startsWith("TIMSK"))
    .sort((left, right) => left.span.start - right.span.start)[0];
  const edit = lineBefore(analysis, (first ?? maker).span, `${register} = 0;`);
  if (edit === null) return [];
  return [
    changingFix(
      `Write ${register} = 0 first`,
      `timer ${timer.number} then runs in ${modeWords(timer, meant)}`,
      pinsOfTimer(analysis, timer.number),
      () => [edit],
    ),
  ];
}

/**
 * Clear or set at match where the counter makes no pulse of it: in CTC and normal mode the pin goes to one level at the first
 * match and stays there. Told only where nothing of the sketch switches it back: no other output setting, no force compare.
 */
function levelInPlaceOfPulse(
  analysis: Analysis,
  timer: TimerFact,
  state: TimerState,
  got: ModeFact,
  maker: RegisterWrite,
): Slip | null {
  if (got.family !== "ctc" && got.family !== "normal") return null;
  const stuck = timer.channels.flatMap((channel) => {
    const com = steadyLevel(analysis, timer, channel);
    return com === null ? [] : [{ channel, com, pin: unitLabel(analysis, channel), level: com === 2 ? "low" : "high" }];
  });
  if (stuck.length === 0) return null;
  const low = listed(stuck.map(({ channel }) => `${channel.com.name}0`));
  const pins = listed(stuck.map(({ pin, level }) => `${pin} ${level}`));
  const they = stuck.length === 1 ? "it stays so and gives" : "they stay so and give";
  const write = (channel: ChannelFact) =>
    makerOf(analysis, state.from, (candidate) => candidate.register === channel.com.register);
  return {
    message: `Timer ${timer.number} runs in ${modeWords(timer, got)}, where ${listed(stuck.map(({ channel, com }) => `${channel.com.name}1:0 = ${com}`))} only ${stuck.length === 1 ? "puts" : "put"} ${pins} at each match: ${they} no pulse. Toggle with ${low} alone, or choose a PWM mode in ${listed(timer.modeField.parts.map((part) => part.register))}.`,
    fixes: [
      changingFix(
        `Toggle ${listed(stuck.map(({ pin }) => pin))} at each match: ${low} alone`,
        "the pin turns over at each match, a square wave",
        pinsOfTimer(analysis, timer.number),
        () => stuck.flatMap(({ channel, com }) => toggling(analysis, channel, com, write(channel), maker)),
      ),
    ],
  };
}

/** 2 or 3 where the unit's output setting is that in every lasting state and nowhere switched; null else. */
function steadyLevel(analysis: Analysis, timer: TimerFact, channel: ChannelFact): number | null {
  const settings = lastingStates(analysis, timer.number).map(
    (each) => channelSnapshot(each.snapshot, channel.unit)?.alternatives ?? [],
  );
  const com = settings[0]?.[0]?.com.min ?? 0;
  const steady = settings.every((ways) =>
    ways.every((way) => way.com.min === com && way.com.max === com && way.output === true),
  );
  return com >= 2 && steady && isSetOnce(analysis, timer, channel, com) ? com : null;
}

function toggling(
  analysis: Analysis,
  channel: ChannelFact,
  com: number,
  write: RegisterWrite | undefined,
  maker: RegisterWrite,
) {
  const high = `${channel.com.name}1`;
  if (com === 3) return clearBits(analysis, channel.com.register, [high], write, maker.span);
  for (const part of write?.expression == null ? [] : chain(write.expression, "|")) {
    const bit = namedBit(part);
    const { span } = bit?.at ?? part;
    if (bit?.name === high && textOf(analysis, span) === high) return [{ span, text: `${channel.com.name}0` }];
  }
  const bit = namingStyle(analysis).bit;
  return [
    lineAfter(
      analysis,
      write?.span ?? maker.span,
      `${channel.com.register} ^= ${bit(high)} | ${bit(`${channel.com.name}0`)};`,
    ),
  ];
}

/** Whether the sketch gives the unit this one output setting and no other, and forces no match. */
function isSetOnce(analysis: Analysis, timer: TimerFact, channel: ChannelFact, com: number): boolean {
  const mask = 3 << channel.com.shift;
  if (analysis.names.some((name) => name.name.startsWith(`FOC${timer.number}`))) return false;
  if (analysis.calls.some((call) => call.name === "analogWrite" && call.timers.includes(timer.number))) return false;
  return sketchWrites(analysis)
    .filter((write) => write.register === channel.com.register)
    .every((write) => {
      const value = maskedBits(write.after, mask);
      return value === com << channel.com.shift || value === 0;
    });
}

function modeBits(
  analysis: Analysis,
  timer: TimerFact,
): readonly { readonly name: string; readonly register: string; readonly at: number }[] {
  return timer.modeField.parts.flatMap((part) =>
    Array.from({ length: part.width }, (_, index) => ({
      name: bitName(analysis.target.chip, part.register, part.shift + index) ?? `bit ${part.shift + index}`,
      register: part.register,
      at: part.at + index,
    })),
  );
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
