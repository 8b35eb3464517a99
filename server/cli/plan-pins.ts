/** `pulsewright plan`: what the words ask for, worked out and printed; the exit status. */
import { plansFor } from "../../shared-model/plans/planner.js";
import { planJson } from "./plan-json.js";
import { askedOf, type PlanWords } from "./plan-request.js";
import { planText } from "./plan-text.js";

/** 0: every pin has a plan. 1: one has none. 2: the words cannot be made sense of. */
export function planPins(words: PlanWords, out: (text: string) => void, complain: (line: string) => void): 0 | 1 | 2 {
  const asked = askedOf(words);
  if ("problem" in asked) {
    complain(`pulsewright: ${asked.problem}`);
    return 2;
  }
  const answers = asked.requests.map((request) => ({ request, answer: plansFor(request) }));
  out(words.format === "json" ? planJson(asked.target, words, answers) : planText(asked.target, words, answers));
  return answers.every(({ answer }) => answer.plans.length > 0) ? 0 : 1;
}
