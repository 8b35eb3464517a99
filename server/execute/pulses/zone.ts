/**
 * When a few events happened, told by bounds on their differences (difference bounds; D. Dill, 1989). Law: the real times
 * keep every bound. All times in cycles of the CPU's clock. Events that have not happened yet are not listed.
 */

/** `bounds[i * size + j]`: the most by which point i is later than point j; point 0 is now, the others are `events`. */
export interface Zone {
  readonly events: readonly number[];
  readonly bounds: readonly number[];
  /** By event: the most cycles since then in which the program computed, so that a routine coming between took its time from it. */
  readonly busy: readonly number[];
}

export interface Interval {
  readonly least: number;
  readonly most: number;
}

export const NOTHING_YET: Zone = { events: [], bounds: [0], busy: [] };

/** Time goes by: between `least` and `most`, of which at most `busy` is spent computing. */
export function passed(zone: Zone, least: number, most: number, busy: number): Zone {
  const size = zone.events.length + 1;
  if (size === 1) return zone;
  const bounds = zone.bounds.slice();
  for (let at = 1; at < size; at++) {
    bounds[at] = bounds[at]! + most;
    bounds[at * size] = bounds[at * size]! - least;
  }
  return { events: zone.events, bounds, busy: zone.busy.map((cycles) => cycles + busy) };
}

/** The event happens now (once more). */
export function marked(zone: Zone, event: number): Zone {
  const present = zone.events.indexOf(event);
  const grown = present < 0 ? withRoom(zone, event) : zone;
  const size = grown.events.length + 1;
  const at = grown.events.indexOf(event) + 1;
  const bounds = grown.bounds.slice();
  for (let other = 0; other < size; other++) {
    bounds[at * size + other] = bounds[other]!;
    bounds[other * size + at] = bounds[other * size]!;
  }
  bounds[at] = 0;
  bounds[at * size] = 0;
  bounds[at * size + at] = 0;
  return { events: grown.events, bounds, busy: grown.busy.map((cycles, index) => (index === at - 1 ? 0 : cycles)) };
}

/** Events stay in ascending order, so that zones with the same ones compare cell by cell. */
function withRoom(zone: Zone, event: number): Zone {
  const events = [...zone.events, event].sort((a, b) => a - b);
  const size = events.length + 1;
  const bounds = new Array<number>(size * size).fill(0);
  const old = [0, ...events.map((each) => zone.events.indexOf(each) + 1)];
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) {
      const known = (row === 0 || old[row]! > 0) && (column === 0 || old[column]! > 0);
      if (known) bounds[row * size + column] = zone.bounds[old[row]! * (zone.events.length + 1) + old[column]!]!;
    }
  }
  return { events, bounds, busy: events.map((each) => zone.busy[zone.events.indexOf(each)] ?? 0) };
}

/** How much later `later` is than `earlier`; null stands for now. */
export function between(zone: Zone, earlier: number | null, later: number | null): Interval {
  const size = zone.events.length + 1;
  const row = later === null ? 0 : zone.events.indexOf(later) + 1;
  const column = earlier === null ? 0 : zone.events.indexOf(earlier) + 1;
  return { least: 0 - zone.bounds[column * size + row]!, most: zone.bounds[row * size + column]! };
}

export function busySince(zone: Zone, event: number): number {
  return zone.busy[zone.events.indexOf(event)]!;
}

/** Either of two zones with the same events. */
export function joined(a: Zone, b: Zone): Zone {
  if (a === b) return a;
  return {
    events: a.events,
    bounds: a.bounds.map((bound, at) => Math.max(bound, b.bounds[at]!)),
    busy: a.busy.map((cycles, at) => Math.max(cycles, b.busy[at]!)),
  };
}

/** Bounds that grew are given up: rounds of a fixed point end. */
export function widened(before: Zone, after: Zone): Zone {
  const grown = (old: number, now: number): number => (now > old ? Number.POSITIVE_INFINITY : old);
  return {
    events: before.events,
    bounds: before.bounds.map((bound, at) => grown(bound, after.bounds[at]!)),
    busy: before.busy.map((cycles, at) => grown(cycles, after.busy[at]!)),
  };
}

export function sameZone(a: Zone, b: Zone): boolean {
  if (a === b) return true;
  return (
    a.events.length === b.events.length &&
    a.events.every((event, at) => event === b.events[at]) &&
    a.bounds.every((bound, at) => bound === b.bounds[at]) &&
    a.busy.every((cycles, at) => cycles === b.busy[at])
  );
}
