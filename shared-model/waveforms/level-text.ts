/** Why a compare unit holds its pin at a level: one clause, for messages. */
import type { ChannelFact, ModeFact, TimerFact } from "../chip.js";
import type { Shape } from "./compare-shapes.js";
import { topName } from "./control-states.js";

export function levelText(
  shape: Extract<Shape, { kind: "level" }>,
  where: { readonly timer: TimerFact; readonly mode: ModeFact; readonly channel: ChannelFact; readonly com: number },
): string {
  const { timer, mode, channel, com } = where;
  const compare = channel.compare;
  const own = mode.top.kind === "compareA" && channel.letter === "A";
  const top = topName(timer, mode);
  switch (shape.reason) {
    case "after first match":
      return `${channel.com.name} = ${com} ${shape.level === "low" ? "clears" : "sets"} the pin at the first match and never does the opposite`;
    case "never matches":
      return `${compare} is above TOP (${top}) and never matches: the pin keeps the level it had`;
    case "at or above top":
      return own
        ? `${compare} is TOP itself: the pin never switches`
        : `${compare} is at or above TOP (${top}): the pin never switches`;
    case "at bottom":
      return `${compare} is 0`;
    case "at top":
      return own ? `${compare} is TOP itself: the pin never switches` : `${compare} equals TOP (${top})`;
    case "above top":
      return `${compare} is above TOP (${top}) and never matches: the data sheet does not say which level the pin keeps`;
    case "top is zero":
      return `TOP (${top}) is 0: the counter does not move, there is no pulse`;
  }
}
