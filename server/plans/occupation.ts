/** What of the chip a sketch uses, read off its analysis: what a plan has to respect. */
import { busLines } from "../../shared-model/boards/bus-lines.js";
import { toNumber } from "../../shared-model/fraction.js";
import type { Occupation, PresentSetting, UsedPin } from "../../shared-model/plans/occupation.js";
import type { Analysis, PinHistory } from "../analysis.js";
import { lastingStates, pinLabel } from "../look/look.js";
import { listed } from "../look/show.js";
import { clockOf, modeOf, prescalerOf, topBounds } from "../look/timer-view.js";
import { portNamed } from "../look/wanted-pin.js";

/** `served`: ports whose wants the plan is for; every other pin with a want is kept as it is. */
export function occupationOf(analysis: Analysis, served: ReadonlySet<string>): Occupation {
  const kept = new Set<string>();
  for (const { comment, pin } of analysis.comments) {
    const port = comment.kind !== "want" || pin === null ? undefined : portOfPin(analysis, pin);
    if (port !== undefined && !served.has(port)) kept.add(port);
  }
  const present = presentSettings(analysis);
  return {
    kept,
    used: usedPins(analysis),
    taken: takenTimers(analysis),
    present,
    timeBase: analysis.core ? { timer: 0, used: asksForTime(analysis) } : null,
    buses: busesOf(analysis),
  };
}

/** The port of a pin as wants and histories name it. */
export function portOfPin(analysis: Analysis, pin: string): string | undefined {
  return (
    analysis.pins.find((candidate) => candidate.pin === pin || candidate.port === pin)?.port ?? portNamed(analysis, pin)
  );
}

const CALLS_ON_PINS: Readonly<Record<string, string>> = {
  analogWrite: "PWM by analogWrite",
  digitalWrite: "switched by digitalWrite",
  digitalRead: "read by digitalRead",
  pulseIn: "read by pulseIn",
  tone: "plays a tone",
  attachInterrupt: "an interrupt input",
};

function usedPins(analysis: Analysis): ReadonlyMap<string, UsedPin> {
  const used = new Map<string, UsedPin>();
  const hzOf = (port: string): number | null => presentHz(analysis.pins.find((pin) => pin.port === port));
  for (const call of analysis.calls) {
    const servo = /^Servo\b/.test(call.name);
    const what = CALLS_ON_PINS[call.name] ?? (servo ? "driven by the servo library" : undefined);
    const direction =
      call.name === "pinMode" ? (call.arguments[1]?.value?.min === 1 ? "an output" : "an input") : undefined;
    for (const number of call.pins) {
      const port = analysis.target.pins.find((pin) => pin.number === number)?.port;
      if (port === undefined || (what ?? direction) === undefined) continue;
      if (what !== undefined || !used.has(port)) used.set(port, { what: (what ?? direction)!, hz: hzOf(port) });
    }
  }
  for (const pin of analysis.pins) {
    if (used.get(pin.port)?.what === "an output" || !used.has(pin.port)) {
      const what = wordsOf(pin);
      if (what !== null) used.set(pin.port, { what, hz: presentHz(pin) });
    }
  }
  return used;
}

/** How a pin is driven while the sketch runs; null where it is not. */
function wordsOf(pin: PinHistory): string | null {
  const running = pin.signals.filter((signal) => signal.regime === "running");
  if (running.some((signal) => signal.kind === "pulse" && signal.driver === "timer"))
    return `PWM on ${pin.units.join(" or ")}`;
  if (running.some((signal) => signal.kind === "pulse")) return "pulses by software";
  if (running.some((signal) => signal.kind === "level")) return "an output";
  if (running.some((signal) => signal.kind === "unknown")) return "driven in a way that is not known";
  return null;
}

function presentHz(pin: PinHistory | undefined): number | null {
  const rates = (pin?.signals ?? []).flatMap((signal) =>
    signal.regime === "running" && signal.kind === "pulse" && signal.driver === "timer" && signal.frequencyHz !== null
      ? [toNumber(signal.frequencyHz.min)]
      : [],
  );
  return rates[0] ?? null;
}

/** Who plays or drives pins by this timer behind the sketch's back; null where nobody does. */
export function libraryOn(analysis: Analysis, timer: number): string | null {
  const call = analysis.calls.find(({ name, timers }) => isOfLibrary(name) && timers.includes(timer));
  return call === undefined ? null : call.name === "tone" ? "tone" : "the servo library";
}

function isOfLibrary(name: string): boolean {
  return name === "tone" || /^Servo\b/.test(name);
}

function takenTimers(analysis: Analysis): ReadonlyMap<number, string> {
  const taken = new Map<number, string>();
  for (const call of analysis.calls) {
    if (!isOfLibrary(call.name)) continue;
    const pins = call.pins.map((number) => pinLabel(analysis, pinAt(analysis, number)));
    const what = call.name === "tone" ? `tone${pins.length > 0 ? ` on ${listed(pins)}` : ""}` : "the servo library";
    for (const timer of call.timers) if (!taken.has(timer)) taken.set(timer, what);
  }
  for (const { vector } of analysis.interrupts) {
    const bare = vector.replace(/_vect$/, "");
    const timer = analysis.target.chip.timers.find(
      (fact) =>
        fact.overflow.vector === bare ||
        fact.captureInterrupt?.vector === bare ||
        fact.channels.some((channel) => channel.interrupt.vector === bare),
    );
    if (timer !== undefined && !taken.has(timer.number)) taken.set(timer.number, `the interrupt routine ${bare}`);
  }
  return taken;
}

function pinAt(analysis: Analysis, number: number): { readonly pin: string; readonly port: string } {
  const port = analysis.target.pins.find((pin) => pin.number === number)?.port ?? String(number);
  return { pin: String(number), port };
}

function presentSettings(analysis: Analysis): ReadonlyMap<number, PresentSetting> {
  const present = new Map<number, PresentSetting>();
  for (const timer of analysis.target.chip.timers) {
    const found = new Map<string, PresentSetting | null>();
    for (const { snapshot } of lastingStates(analysis, timer.number)) {
      const mode = modeOf(timer, snapshot);
      const prescaler = prescalerOf(clockOf(timer, snapshot));
      const top = mode === undefined ? null : topBounds(timer, mode, snapshot);
      const known = mode !== undefined && prescaler !== null && top !== null && top.min === top.max;
      const setting = known ? { mode: mode.select, prescaler, top: top.min } : null;
      found.set(JSON.stringify(setting), setting);
    }
    const only = found.size === 1 ? [...found.values()][0] : null;
    if (only !== null && only !== undefined) present.set(timer.number, only);
  }
  return present;
}

const TIME_CALLS: ReadonlySet<string> = new Set(["delay", "millis", "micros"]);

/** delayMicroseconds counts cycles and needs no timer. Servo and tone keep time by timers of their own. */
function asksForTime(analysis: Analysis): boolean {
  return (
    analysis.calls.some((call) => TIME_CALLS.has(call.name)) ||
    analysis.names.some((known) => known.kind === "call" && TIME_CALLS.has(known.name))
  );
}

function busesOf(analysis: Analysis): Occupation["buses"] {
  const own = analysis.files.filter((file) => file.kind === "sketch").map((file) => file.text);
  const begun = (library: string): boolean =>
    own.some((text) => new RegExp(`\\b${library}\\s*\\.\\s*begin\\b`).test(text));
  const enabled = (register: string, bits: readonly string[]): boolean => {
    const row = analysis.target.chip.registers.find((candidate) => candidate.name === register);
    const mask = (row?.bits ?? []).reduce((all, bit) => (bits.includes(bit.name) ? all | (1 << bit.position) : all), 0);
    return analysis.writes.some((write) => write.register === register && (~write.after.zeros & mask) !== 0);
  };
  return new Map(
    [...busLines(analysis.target)].map(([port, { library, enabledBy, line }]) => [
      port,
      { line, inUse: begun(library) || enabled(enabledBy.register, enabledBy.bits) },
    ]),
  );
}
