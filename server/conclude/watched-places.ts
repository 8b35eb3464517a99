/** Wants inside functions: from which place on states are put on record apart for each, and the signals that come of it. */
import type { Target } from "../../shared-model/chip.js";
import { isBySoftware } from "../../shared-model/signal.js";
import type { PinHistory, PinSignal, PlacedComment } from "../analysis.js";
import type { Execution } from "../execute/execute.js";
import type { Layout } from "../execute/hardware/layout.js";
import { configurationOf, type Watched, type WatchedPlace } from "../execute/watches.js";
import type { FunctionCode, Statement } from "../program/ir.js";
import { concludePins, type Places } from "./pins.js";
import type { Words } from "./words.js";

/** A want's comment with its place in the expanded text. */
export interface WantInFunction {
  readonly placed: PlacedComment;
  readonly at: number;
  readonly within: FunctionCode;
}

export function watchedPlaces(wants: readonly WantInFunction[]): WatchedPlace[] {
  return wants.map((want): WatchedPlace => {
    const { at, within } = want;
    // Another want for the same pin further down takes over from there.
    const next = wants
      .filter((other) => other.within === within && other.placed.pin === want.placed.pin && other.at > at)
      .map((other) => other.at);
    return {
      key: keyOf(want),
      functionStart: within.start,
      from: at,
      until: Math.min(...next, Number.POSITIVE_INFINITY),
      loops: next.length > 0 || within.body === null ? new Set() : loopsAround(within.body, at),
      toTheEnd: next.length === 0,
    };
  });
}

function keyOf({ at, placed }: WantInFunction): string {
  return `${at} ${placed.pin}`;
}

function loopsAround(body: Statement, at: number): Set<number> {
  const found = new Set<number>();
  const visit = (statement: Statement): void => {
    switch (statement.op) {
      case "block":
        for (const part of statement.body) visit(part);
        return;
      case "if":
        visit(statement.yes);
        if (statement.no !== null) visit(statement.no);
        return;
      case "switch":
        for (const { body: parts } of statement.cases) for (const part of parts) visit(part);
        return;
      case "loop":
        if (statement.start <= at && at <= statement.end)
          for (const offset of [statement.start, statement.head, statement.end]) found.add(offset);
        visit(statement.body);
        return;
      default:
    }
  };
  visit(body);
  return found;
}

interface Conclusion {
  readonly execution: Execution;
  readonly layout: Layout;
  readonly target: Target;
  readonly words: Words;
  readonly places: Places;
  /** Of the whole sketch. */
  readonly pins: readonly PinHistory[];
}

/** The comments with what each want inside a function is to be judged on. */
export function withWatched(
  comments: readonly PlacedComment[],
  wants: readonly WantInFunction[],
  conclusion: Conclusion,
): PlacedComment[] {
  const byPlaced = new Map(wants.map((want) => [want.placed, want]));
  const watches = conclusion.execution.collector.watches.byKey;
  return comments.map((placed) => {
    const want = byPlaced.get(placed);
    const watched = want === undefined ? undefined : watches.get(keyOf(want));
    const last = wants.every(
      (other) => other.within !== want?.within || other.placed.pin !== placed.pin || other.at <= want.at,
    );
    return want === undefined || watched === undefined
      ? placed
      : { ...placed, judgedOn: judgedOn(want, watched, last, conclusion) };
  });
}

/** `last`: no other want for the pin stands further down in the function. */
function judgedOn(
  { placed, within }: WantInFunction,
  watched: Watched,
  last: boolean,
  conclusion: Conclusion,
): PlacedComment["judgedOn"] {
  const { layout, target, words, places, pins, execution } = conclusion;
  const pin = pins.find((candidate) => candidate.pin === placed.pin);
  // `ISR(TIMER1_OVF_vect)` has its brackets already.
  const name = within.name.endsWith(")") ? within.name : `${within.name}()`;
  const running = pin?.signals.filter(({ regime }) => regime === "running") ?? [];
  if (pin === undefined || pin.timer === null || pin.signals.some((signal) => isBySoftware(signal)))
    return { signals: running, words: `judged on all that runs: states of this pin are not told apart by function` };
  const own = concludePins(watched, layout, target, words, places).find((candidate) => candidate.pin === placed.pin);
  const timer = layout.timers.find((candidate) => candidate.fact.number === pin.timer)!;
  const open = watched.openEnds(pin.timer);
  const states = (regime: "setup" | "running") => [...execution[regime].timers[timer.index]!.entries()];
  const offset = states("setup").length;
  const all = [...states("setup"), ...states("running")];
  // What the function left and somebody changed in part stands in the sketch's own states.
  const left = pin.signals.filter(({ state }) => {
    const record = state === null ? undefined : all[state]?.[1];
    return record !== undefined && open.has(configurationOf(timer, record.snapshot));
  });
  const ownStates = [...watched.setup.timers[timer.index]!.keys()].length;
  const told = (own?.signals ?? []).map((signal): PinSignal => {
    const { state, regime } = signal;
    const key =
      state === null
        ? undefined
        : [...watched[regime].timers[timer.index]!.keys()][regime === "setup" ? state : state - ownStates];
    const index = key === undefined ? -1 : states(regime).findIndex(([known]) => known === key);
    return { ...signal, state: index < 0 ? null : index + (regime === "setup" ? 0 : offset) };
  });
  if (within.name === "setup" && last)
    return {
      signals: [...told, ...running],
      words: `judged on what stands in ${name} from this line on, and all that runs`,
    };
  const signals = [...told, ...left];
  if (signals.length === 0)
    return { signals: running, words: `judged on all that runs: nothing was told apart for ${name}` };
  return { signals, words: `judged on what stands in ${name} from this line on${last ? ", and what it leaves" : ""}` };
}
