/** Execution records → the analysis. The last stage before findings and features; it decides nothing anew. */
import type { Target } from "../../shared-model/chip.js";
import type { Span } from "../../shared-model/span.js";
import type { Specification } from "../../shared-model/specifications.js";
import { eventRates } from "../../shared-model/waveforms/event-rates.js";
import type { Analysis, InterruptRate, KnownName } from "../analysis.js";
import type { Execution } from "../execute/execute.js";
import { layoutOf } from "../execute/hardware/layout.js";
import type { Preprocessed } from "../preprocess/preprocessed.js";
import type { Gap } from "../preprocess/source.js";
import type { LoweredProgram } from "../program/program.js";
import { concludeComments } from "./comments.js";
import { concludePins, concludeTimers } from "./pins.js";
import { withWatched } from "./watched-places.js";
import { Words } from "./words.js";
import { type Conclusions, concludeCalls, concludeWrites, moveDroppedBuffers } from "./writes.js";

export function conclude(
  source: Preprocessed,
  program: LoweredProgram,
  execution: Execution,
  target: Target,
  specifications: readonly Specification[],
): Analysis {
  const layout = layoutOf(target.chip);
  const words = new Words(source);
  const context: Conclusions = {
    program,
    layout,
    traced: execution.traced,
    words,
    constantOf: (offset) => source.map.origin(offset).constant,
  };
  const records = [...execution.collector.writes.values()];
  const writes = moveDroppedBuffers(concludeWrites(records, context), records, layout, words);
  const calls = concludeCalls(execution.collector.calls.values(), context);
  const spans = new Map(records.map((record, index) => [record.context.start, writes[index]!.span] as const));
  for (const record of execution.collector.calls.values()) {
    spans.set(record.start, words.span(record.start, record.end));
  }
  const order = execution.collector.lastWrite;
  const places = (sites: Iterable<number>): Span[] =>
    [...new Set(sites)]
      .filter((site) => site >= 0)
      .sort((a, b) => (order.get(b) ?? 0) - (order.get(a) ?? 0))
      .map((site) => spans.get(site) ?? words.span(site, site + 1));
  const gaps = concludeGaps(source, program, execution, words);
  const pins = concludePins(execution, layout, target, words, places);
  const { comments, remarks, wants } = concludeComments(source, program, target, specifications);
  return {
    target,
    files: source.files,
    core: program.core,
    specifications,
    comments: withWatched(comments, wants, { execution, layout, target, words, places, pins }),
    remarks,
    writes,
    calls,
    timers: concludeTimers(execution, layout, words, places),
    pins,
    interrupts: concludeRates(execution, program, target, words),
    gaps,
    complete: execution.complete && gaps.length === 0,
    names: concludeNames(source, program, target, words),
  };
}

function concludeGaps(source: Preprocessed, program: LoweredProgram, execution: Execution, words: Words): Gap[] {
  const gaps: Gap[] = [...source.gaps];
  const seen = new Set<string>();
  for (const gap of [...program.gaps, ...execution.gaps]) {
    const span = words.span(gap.start, gap.end);
    const key = `${gap.reason}:${span.path}:${span.start}`;
    if (seen.has(key)) continue;
    seen.add(key);
    gaps.push({ reason: gap.reason, span, affects: gap.affects });
  }
  return gaps;
}

/** How often each of the sketch's timer routines is called; null for routines of other units. */
function concludeRates(execution: Execution, program: LoweredProgram, target: Target, words: Words): InterruptRate[] {
  return program.interrupts
    .filter((code) => !code.core)
    .map((code) => {
      const vector = code.interrupt ?? "";
      const span = words.span(code.start, code.end);
      const timer = target.chip.timers.find(
        (fact) =>
          fact.overflow.vector === vector ||
          fact.captureInterrupt?.vector === vector ||
          fact.channels.some((channel) => channel.interrupt.vector === vector),
      );
      if (timer === undefined) return { vector, rateHz: null, span };
      const index = target.chip.timers.indexOf(timer);
      let min = Number.POSITIVE_INFINITY;
      let max = 0;
      let known = true;
      for (const record of execution.running.timers[index]!.values()) {
        const rate =
          eventRates(target.chip, timer, record.snapshot, target.clockHz).find((event) => event.vector === vector)
            ?.rateHz ?? null;
        if (rate === null) known = false;
        else {
          // A counter that is set anew moves the moments of its events.
          const cycles = target.clockHz / rate.min;
          if (execution.running.cut.isCut(index, cycles)) known = false;
          min = Math.min(min, rate.min);
          max = Math.max(max, rate.max);
        }
      }
      return { vector, rateHz: known && min <= max ? { min, max } : null, span };
    });
}

function concludeNames(source: Preprocessed, program: LoweredProgram, target: Target, words: Words): KnownName[] {
  const bits = new Set(target.chip.registers.flatMap((register) => register.bits.map((bit) => bit.name)));
  const names: KnownName[] = [];
  for (const entry of program.registerNames)
    names.push({ span: words.span(entry.start, entry.end), kind: "register", name: entry.name });
  for (const entry of program.literalNames) {
    const { constant } = source.map.origin(entry.start);
    if (constant !== null && bits.has(constant))
      names.push({ span: words.span(entry.start, entry.end), kind: "bit", name: constant });
  }
  for (const entry of program.callNames)
    names.push({ span: words.span(entry.start, entry.end), kind: "call", name: entry.name });
  return names.sort((a, b) =>
    a.span.path === b.span.path ? a.span.start - b.span.start : a.span.path < b.span.path ? -1 : 1,
  );
}
