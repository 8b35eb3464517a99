/**
 * States from one place of the text on, put on record apart: for wants inside functions. Law: while the function is under way
 * behind the place, in itself or in what it calls, whatever settles is on record; what it leaves at its end is too, where that
 * stands unchanged when time passes next. What was left and did not stand unchanged is told by its mode and clock.
 */
import type { Regime } from "../../shared-model/signal.js";
import type { TimerSnapshot } from "../../shared-model/timer-snapshot.js";
import type { FunctionCode } from "../program/ir.js";
import { Bucket } from "./bucket.js";
import type { Layout, TimerSlot } from "./hardware/layout.js";
import { snapshotOf } from "./snapshot.js";
import type { State } from "./state.js";

export interface WatchedPlace {
  readonly key: string;
  /** Start of the function's code, which tells it from others. */
  readonly functionStart: number;
  /** Offsets into the expanded text: from the statement at `from` on, before that at `until`. */
  readonly from: number;
  readonly until: number;
  /** Loops around the place: at their heads stands what the place's own part of the loop has left. */
  readonly loops: ReadonlySet<number>;
  /** True where the place's part goes to the end of the function. */
  readonly toTheEnd: boolean;
}

interface End {
  readonly timer: TimerSlot;
  readonly configuration: string;
  lasted: boolean;
}

export interface Watched {
  readonly setup: Bucket;
  readonly running: Bucket;
  /** Configurations that the function left and that were changed, in part, before time passed: by timer. */
  openEnds(timer: number): ReadonlySet<string>;
}

class Watch implements Watched {
  readonly setup: Bucket;
  readonly running: Bucket;
  /** What the function left, by everything that was written. */
  private readonly ends = new Map<string, End>();

  constructor(
    readonly place: WatchedPlace,
    private readonly layout: Layout,
  ) {
    this.setup = new Bucket(layout);
    this.running = new Bucket(layout);
  }

  left(state: State, contents: Contents): void {
    if (!this.place.toTheEnd || this.ends.size >= MOST_ENDS) return;
    for (const timer of this.layout.timers) {
      const snapshot = snapshotOf(state.machine, timer);
      const text = contents.of(state, timer);
      if (!this.ends.has(text))
        this.ends.set(text, { timer, configuration: configurationOf(timer, snapshot), lasted: false });
    }
  }

  /** Those timers that stand as the function left them. */
  lasting(state: State, contents: Contents): TimerSlot[] {
    if (this.ends.size === 0) return [];
    return this.layout.timers.filter((timer) => {
      const end = this.ends.get(contents.of(state, timer));
      if (end !== undefined) end.lasted = true;
      return end !== undefined;
    });
  }

  openEnds(timer: number): ReadonlySet<string> {
    const open = [...this.ends.values()].filter((end) => !end.lasted && end.timer.fact.number === timer);
    return new Set(open.map(({ configuration }) => configuration));
  }
}

const MOST_ENDS = 400;
const MOST_CONTENTS = 4_000;

/** What timers held, as texts to be compared: worked out once for each version of a timer. */
class Contents {
  readonly #known: Map<number, string>[] = [];

  of({ machine }: State, timer: TimerSlot): string {
    this.#known[timer.index] ??= new Map();
    const known = this.#known[timer.index]!;
    const version = machine.versionOf(timer.index);
    let text = known.get(version);
    if (text === undefined) {
      text = contentOf(snapshotOf(machine, timer));
      if (known.size >= MOST_CONTENTS) known.clear();
      known.set(version, text);
    }
    return text;
  }
}

/** Everything that the program has written of a timer; what has arrived of it by now is left out. */
function contentOf({ working: _, channels, ...rest }: TimerSnapshot): string {
  return JSON.stringify([
    rest,
    channels.map(({ alternatives }) => alternatives.map(({ com, output, high }) => [com, output, high])),
  ]);
}

/** Mode and clock and a TOP of its own, outputs and duty left out. */
export function configurationOf(timer: TimerSlot, { registers }: TimerSnapshot): string {
  let outputs = 0;
  for (const channel of timer.channels) if (channel.comAddress === timer.control[0]) outputs |= 3 << channel.comShift;
  const names = [...timer.fact.control, ...(timer.fact.capture === undefined ? [] : [timer.fact.capture])];
  return names
    .map((name, index) => {
      const value = registers[name]!;
      const kept = index === 0 ? ~outputs : ~0;
      return `${value.zeros & kept}/${value.ones & kept}`;
    })
    .join(" ");
}

export class Watches {
  readonly #watches: readonly Watch[];
  readonly #contents = new Contents();
  readonly #frames: { readonly code: FunctionCode; readonly site: number }[] = [];

  constructor(places: readonly WatchedPlace[], layout: Layout) {
    this.#watches = places.map((place) => new Watch(place, layout));
  }

  get byKey(): ReadonlyMap<string, Watched> {
    return new Map(this.#watches.map((watch) => [watch.place.key, watch]));
  }

  get isEmpty(): boolean {
    return this.#watches.length === 0;
  }

  get depth(): number {
    return this.#frames.length;
  }

  /** Frames that an exception has left. */
  cutTo(depth: number): void {
    this.#frames.length = depth;
  }

  /** `site`: where the caller calls it; -1 where nobody does. */
  enter(code: FunctionCode, site: number): void {
    if (!this.isEmpty) this.#frames.push({ code, site });
  }

  leave(code: FunctionCode, states: readonly State[]): void {
    if (this.isEmpty) return;
    this.#frames.pop();
    for (const watch of this.#watches)
      if (watch.place.functionStart === code.start) for (const state of states) watch.left(state, this.#contents);
  }

  settle(regime: Regime, state: State, place: number, standing: readonly TimerSlot[]): void {
    for (const watch of this.#watches) {
      if (this.#isUnderWay(watch.place, place)) watch[regime].settle(state, place, standing);
      else {
        const lasting = watch.lasting(state, this.#contents).filter((timer) => standing.includes(timer));
        if (lasting.length > 0) watch[regime].settle(state, place, lasting);
      }
    }
  }

  #isUnderWay({ functionStart, from, until, loops }: WatchedPlace, place: number): boolean {
    return this.#frames.some(({ code }, depth) => {
      if (code.start !== functionStart) return false;
      const at = this.#frames[depth + 1]?.site ?? place;
      // A place that is none of the function's text says nothing: it may be any.
      return at < code.start || at > code.end || loops.has(at) || (at >= from && at < until);
    });
  }
}
