/** The timer drives a unit whose pin is an input: nothing comes out. */
import type { ChannelFact, TimerFact } from "../../shared-model/chip.js";
import type { Analysis, RegisterWrite } from "../analysis.js";
import { lastingStates, makerOf, pinOfUnit, sketchWrites, unitLabel } from "../look/look.js";
import { namingStyle } from "../look/naming.js";
import { channelSnapshot, counts, modeOf } from "../look/timer-view.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, lineAfter } from "./fix.js";

export const notAnOutput: FindingRule = {
  id: "not-an-output",
  severity: "warning",
  says: "The timer drives the pin, but the pin's direction is input.",
  why: "The unit runs, the registers read right, and the scope shows nothing: the direction bit decides whether the unit reaches the pin.",
  source: "the chip's data sheet, compare output mode: the data direction bit of the pin must be set",
  fires: `void setup() {
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS22);
  OCR2B = 100;
}

void loop() {}
`,
  quiet: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS22);
  OCR2B = 100;
}

void loop() {}
`,
  whenFine:
    "A direction bit that is switched to gate the pulse, and a second unit that is connected but never given a compare value, are left alone.",
  check(analysis, report) {
    for (const timer of analysis.target.chip.timers) {
      for (const channel of timer.channels) {
        const maker = idleOutput(analysis, timer, channel);
        if (maker === undefined) continue;
        const pin = unitLabel(analysis, channel);
        const { board } = analysis.target;
        report({
          message: `Timer ${timer.number} drives ${channel.unit}, but ${pin} is an input, so nothing comes out. Make it an output with ${analysis.core ? "pinMode" : "its direction bit"}${board === null || pin === channel.port ? "" : `; ${channel.unit} is ${pin} on the ${board.id}`}.`,
          span: maker.span,
          related: [],
          fixes: fixes(analysis, channel, maker),
        });
      }
    }
  },
};

/** The write that connected the unit, where the pin is an input in every lasting state. */
function idleOutput(analysis: Analysis, timer: TimerFact, channel: ChannelFact): RegisterWrite | undefined {
  const states = lastingStates(analysis, timer.number);
  if (states.length === 0) return undefined;
  let connected: RegisterWrite | undefined;
  for (const state of states) {
    const mode = modeOf(timer, state.snapshot);
    const ways = channelSnapshot(state.snapshot, channel.unit)?.alternatives ?? [];
    if (mode === undefined || ways.length === 0 || ways.some((way) => way.output !== false)) return undefined;
    if (!counts(timer, state.snapshot) || ways.some((way) => way.com.min === 0)) continue;
    connected ??= makerOf(analysis, state.from, (write) => write.register === channel.com.register);
  }
  if (connected === undefined) return undefined;
  const used = sketchWrites(analysis).some(
    (write) => write.register === channel.compare || write.register === `${channel.compare}L`,
  );
  return used ? connected : undefined;
}

function fixes(analysis: Analysis, channel: ChannelFact, maker: RegisterWrite): readonly Fix[] {
  const pin = analysis.target.pins.find((candidate) => candidate.port === channel.port);
  const history = pinOfUnit(analysis, channel.unit);
  if (history === undefined) return [];
  if (!analysis.core || pin === undefined) {
    const port = analysis.target.chip.ports.find((candidate) => candidate.letter === channel.port[1]);
    if (port === undefined) return [];
    return [
      changingFix(`Make ${channel.port} an output`, "the unit's pulse comes out at the pin", [history.pin], () => [
        lineAfter(analysis, maker.span, `${port.direction} |= ${namingStyle(analysis).bit(channel.port)};`),
      ]),
    ];
  }
  return [
    changingFix(
      `Make ${unitLabel(analysis, channel)} an output`,
      "the unit's pulse comes out at the pin",
      [history.pin],
      () => [lineAfter(analysis, maker.span, `pinMode(${pin.number}, OUTPUT);`)],
    ),
  ];
}
