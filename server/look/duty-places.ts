/** Where a sketch writes the duty of a compare unit, with every value that it can write there. */
import type { ChannelFact, TimerFact } from "../../shared-model/chip.js";
import type { RegisterValue } from "../../shared-model/register-value.js";
import type { Analysis, CoreCall, RegisterWrite, WrittenExpression } from "../analysis.js";
import { nameWritten, ownPaths, sketchWrites, startsAt, unitOfPin } from "./look.js";

export interface DutyPlace {
  readonly timer: TimerFact;
  readonly channel: ChannelFact;
  readonly expression: WrittenExpression;
  /** Before it is cut to the register's width. */
  readonly value: RegisterValue;
  /** Every value, ascending, where they are known one by one; null where only bounds are. */
  readonly values: readonly number[] | null;
  /** Whether the bounds are the value's own, and not only those of its type or of what nothing is known of. */
  readonly known: boolean;
  /** Whether it is worked out of one reading: every value then really occurs. */
  readonly byReading: boolean;
  /** Values that the core turns into port levels: 0 and 255 of an analogWrite. */
  readonly levels: readonly number[];
  readonly call: CoreCall | null;
  readonly write: RegisterWrite | null;
}

/** Made once for each analysis: an analysis never changes. */
const made = new WeakMap<Analysis, readonly DutyPlace[]>();

/** Every place of the sketch that writes a duty: `OCRnx = …`, and analogWrite of a pin with a unit. */
export function dutyPlaces(analysis: Analysis): readonly DutyPlace[] {
  const known = made.get(analysis);
  if (known !== undefined) return known;
  const places = placesOf(analysis);
  made.set(analysis, places);
  return places;
}

function placesOf(analysis: Analysis): readonly DutyPlace[] {
  const places: DutyPlace[] = [];
  for (const write of sketchWrites(analysis)) {
    const timer = analysis.target.chip.timers.find((candidate) => candidate.number === write.timer);
    const channel = timer?.channels.find((candidate) => candidate.compare === write.register);
    if (timer === undefined || channel === undefined || write.expression === null || write.operator !== "=") continue;
    if (nameWritten(analysis, write) !== channel.compare) continue;
    places.push({
      timer,
      channel,
      expression: write.expression,
      value: write.asked,
      values: write.asked.values ?? whole(write.asked, write.reach?.values),
      known: isKnown(write.expression, write.asked, write.reach !== null),
      byReading: write.expression.nature === "input" || (write.reach !== null && write.reach.values.length > 1),
      levels: [],
      call: null,
      write,
    });
  }
  const own = ownPaths(analysis);
  for (const call of analysis.calls) {
    const argument = call.arguments[1];
    if (call.name !== "analogWrite" || argument === undefined || argument.value === null || !own.has(call.span.path))
      continue;
    for (const number of call.pins) {
      const unit = unitOfPin(analysis, number);
      if (unit === undefined) continue;
      const { timer, channel } = unit;
      const stored = analysis.writes.find(
        (write) => write.operator === "core" && write.register === channel.compare && startsAt(write.span, call.span),
      );
      const reach = call.pins.length === 1 ? stored?.reach : null;
      const { value, expression } = argument;
      places.push({
        timer,
        channel,
        expression,
        value,
        // The core stores all but 0 and 255.
        values: value.values ?? (reach == null ? null : whole(value, withEnds(reach.values, value))),
        known: isKnown(expression, value, reach != null),
        byReading: expression.nature === "input" || (reach != null && reach.values.length > 1),
        levels: [0, 255],
        call,
        write: null,
      });
    }
  }
  return places;
}

function withEnds(values: readonly number[], value: RegisterValue): readonly number[] {
  const ends = [0, 255].filter((end) => end >= value.min && end <= value.max);
  return [...new Set([...values, ...ends])].sort((left, right) => left - right);
}

/** The list, where it holds the value's bounds: a list of what is left after the cut does not. */
function whole(value: RegisterValue, values: readonly number[] | undefined): readonly number[] | null {
  return values !== undefined && values[0] === value.min && values.at(-1) === value.max ? values : null;
}

function isKnown(expression: WrittenExpression, value: RegisterValue, byReading: boolean): boolean {
  if (value.values !== null || byReading || expression.nature === "input" || expression.type === null) return true;
  const { bits, signed } = expression.type;
  const most = 2 ** (bits - (signed ? 1 : 0)) - 1;
  const least = signed ? -most - 1 : 0;
  return value.max < most && (least === 0 || value.min > least);
}
