/** A duty is written to a compare register whose output is connected to nothing. */
import type { ChannelFact, TimerFact } from "../../shared-model/chip.js";
import type { Analysis } from "../analysis.js";
import {
  interruptMayBeOn,
  lastingStates,
  makerOf,
  mentions,
  pinOfUnit,
  sketchCalls,
  sketchWrites,
  unitLabel,
  unitOfPin,
} from "../look/look.js";
import { namingStyle } from "../look/naming.js";
import { channelSnapshot, counts, isPwm, modeOf, modesOf, topRegister } from "../look/timer-view.js";
import type { FindingRule, Fix } from "./finding.js";
import { changingFix, lineAfter } from "./fix.js";

export const notConnected: FindingRule = {
  id: "not-connected",
  severity: "warning",
  says: "A duty is written, but no output of the unit is connected to the pin.",
  why: "With COMnx = 0 the pin stays plain port I/O: the compare register changes and the pin does not.",
  source: "the chip's data sheet, compare output mode tables: COMnx1:0 = 0, normal port operation, OCnx disconnected",
  fires: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS22);
}

void loop() { OCR2B = 100; }
`,
  quiet: `void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS22);
}

void loop() { OCR2B = 100; }
`,
  whenFine:
    "A compare value that is TOP, that has its interrupt on, whose flag is read, or that starts conversions needs no output.",
  check(analysis, report) {
    for (const timer of analysis.target.chip.timers) {
      for (const channel of timer.channels) {
        if (!unconnected(analysis, timer, channel)) continue;
        for (const write of sketchWrites(analysis)) {
          if (write.register !== channel.compare || write.asked.max <= 0) continue;
          report({
            message: `${channel.compare} is written, but ${channel.com.name}1:0 is 0, so ${unitLabel(analysis, channel)} stays plain port I/O and shows no pulse. Set ${channel.com.name}1 in ${channel.com.register}${analysis.core ? ", or use analogWrite" : ""}.`,
            span: write.span,
            related: [],
            fixes: connectFix(analysis, timer, channel),
          });
        }
      }
    }
  },
};

/** Whether the unit makes PWM that reaches no pin in any state, and nothing else uses the compare value. */
function unconnected(analysis: Analysis, timer: TimerFact, channel: ChannelFact): boolean {
  const states = lastingStates(analysis, timer.number);
  if (states.length === 0) return false;
  for (const state of states) {
    const mode = modeOf(timer, state.snapshot);
    const ways = channelSnapshot(state.snapshot, channel.unit)?.alternatives ?? [];
    if (mode === undefined || !isPwm(mode) || !counts(timer, state.snapshot)) return false;
    if (ways.length === 0 || ways.some((way) => way.com.max > 0 || way.output === false)) return false;
    if (modesOf(timer, state.snapshot).some((each) => topRegister(timer, each) === channel.compare)) return false;
  }
  if (interruptMayBeOn(analysis, timer, channel.interrupt)) return false;
  if (mentions(analysis, timer.flags, channel.interrupt.mask.replace("OCIE", "OCF"), "ADCSRB")) return false;
  return !sketchCalls(analysis, "analogWrite").some((call) =>
    call.pins.some((number) => unitOfPin(analysis, number)?.channel === channel),
  );
}

/** A line after the last write of the register that holds the output bits. */
function connectFix(analysis: Analysis, timer: TimerFact, channel: ChannelFact): readonly Fix[] {
  const { register, name } = channel.com;
  const states = lastingStates(analysis, timer.number);
  const maker = makerOf(
    analysis,
    states.flatMap((state) => state.from),
    (write) => write.register === register,
  );
  const pin = pinOfUnit(analysis, channel.unit);
  if (maker === undefined || pin === undefined) return [];
  return [
    changingFix(
      `Connect ${unitLabel(analysis, channel)}: set ${name}1`,
      "the unit's pulse comes out at the pin",
      [pin.pin],
      () => [lineAfter(analysis, maker.span, `${register} |= ${namingStyle(analysis).bit(`${name}1`)};`)],
    ),
  ];
}
