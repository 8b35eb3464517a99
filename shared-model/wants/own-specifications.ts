/**
 * Named specifications of somebody's own, out of the workspace's settings: `"vent": "25 kHz within 21..28 kHz, 100 steps"`, or
 * an object with `wants` and what else a specification says. Total: what cannot be read is named, with what is wrong.
 */
import { type Specification, specifications } from "../specifications.js";
import { readComment } from "./read-comment.js";

export const OWN_SPECIFICATIONS = "pulsewright.specifications";

export interface OwnSpecifications {
  /** Unreadable ones as well, with `broken`: who asks for one of these is told why. */
  readonly specifications: readonly Specification[];
  /** One sentence each, with the entry's name. */
  readonly problems: readonly string[];
}

const KEYWORDS = new Set([
  "duty",
  "reach",
  "pulse",
  "every",
  "within",
  "idle",
  "with",
  "and",
  "or",
  "more",
  "steps",
  "step",
]);
const ENTRY_KEYS = ["wants", "name", "source", "caution"];
const OPENING = "// wants D0: ";

export function readOwnSpecifications(entries: unknown): OwnSpecifications {
  if (entries === undefined || entries === null) return { specifications: [], problems: [] };
  if (typeof entries !== "object" || Array.isArray(entries))
    return { specifications: [], problems: [`${OWN_SPECIFICATIONS} must be a table: a name and what it wants, each`] };
  const found: Specification[] = [];
  const problems: string[] = [];
  for (const [id, entry] of Object.entries(entries)) {
    const read = readEntry(id, entry);
    if (typeof read !== "string") found.push(read);
    else {
      problems.push(`${OWN_SPECIFICATIONS}: ${JSON.stringify(id)} ${read}`);
      if (ID.test(id) && !isTaken(id)) found.push({ id, name: id, source: "", broken: `it ${read}` });
    }
  }
  return { specifications: found, problems };
}

const ID = /^[A-Za-z][A-Za-z0-9-]*$/;

function isTaken(id: string): boolean {
  return KEYWORDS.has(id.toLowerCase()) || specifications.some((known) => known.id === id);
}

/** The specification, or what is wrong with it: `has no wants`. */
function readEntry(id: string, entry: unknown): Specification | string {
  if (!ID.test(id)) return "is no name that a want can use: letters, digits and hyphens, a letter first";
  if (KEYWORDS.has(id.toLowerCase())) return "is a word of the want's own grammar";
  if (isTaken(id)) return "is the name of a specification that is there already";
  if (typeof entry === "string") return specified(id, entry, {});
  if (typeof entry !== "object" || entry === null || Array.isArray(entry))
    return 'must be a want such as "1 kHz +-2 %", or { "wants": …, "name": …, "source": …, "caution": … }';
  const fields = entry as Record<string, unknown>;
  const odd = Object.keys(fields).find((key) => !ENTRY_KEYS.includes(key));
  if (odd !== undefined) return `has ${JSON.stringify(odd)}, which is none of ${ENTRY_KEYS.join(", ")}`;
  for (const key of ENTRY_KEYS)
    if (fields[key] !== undefined && typeof fields[key] !== "string") return `has a ${key} that is no text`;
  const { wants, ...words } = fields as Record<string, string | undefined>;
  return wants === undefined ? 'has no "wants"' : specified(id, wants, words);
}

function specified(id: string, text: string, words: Record<string, string | undefined>): Specification | string {
  if (/[\r\n]/.test(text)) return "spreads its want over several lines";
  const [want] = readComment(`${OPENING}${text}`);
  if (want?.kind !== "want") {
    const [column, expected] =
      want?.kind === "unread"
        ? [Math.max(1, want.column - OPENING.length + 1), want.expected]
        : [1, "a want such as 1 kHz +-2 %"];
    return `is not understood from column ${column} of its want on (${JSON.stringify(text)}): expected ${expected}`;
  }
  const base = specifications.find((known) => known.id === want.specification);
  const { frequency, duty, reach, pulse, steps, idle, filter } = want;
  const range = ({ min, max }: { readonly min: number; readonly max: number }) => ({ min, max });
  return {
    id,
    name: words["name"] ?? (base === undefined ? id : `${id}, after ${base.name}`),
    ...(frequency === undefined ? {} : { frequency: { hz: frequency.hz, ...range(frequency) } }),
    ...(duty === undefined ? {} : { duty: range(duty) }),
    ...(reach === undefined ? {} : { reach: range(reach) }),
    ...(pulse === undefined ? {} : { pulse: range(pulse) }),
    ...(steps === undefined ? {} : { steps: steps.steps }),
    ...(idle === undefined ? {} : { idle: idle.level }),
    ...(base?.takesFilter === true ? { takesFilter: true } : {}),
    ...(filter === undefined ? {} : { filter: { ohms: filter.ohms, farads: filter.farads } }),
    source:
      words["source"] ??
      `the workspace's own settings${base === undefined ? "" : `, after ${base.id}: ${base.source}`}`,
    ...(words["caution"] === undefined && base?.caution === undefined
      ? {}
      : { caution: words["caution"] ?? base!.caution! }),
  };
}
