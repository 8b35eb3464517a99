/** Slips put into a sketch on purpose, one at a time: the ones that people make, as changes of the text. */

export interface SlippedSketch {
  readonly kind: string;
  readonly text: string;
}

interface SlipRule {
  readonly kind: string;
  readonly find: RegExp;
  readonly put: (...found: string[]) => string | null;
}

const CONTROL = "TCCR\\d[AB]";
const BIT = "(?:_BV\\(\\s*(?:CS|WGM)\\d+\\s*\\)|\\(\\s*1\\s*<<\\s*(?:CS|WGM)\\d+\\s*\\))";

const RULES: readonly SlipRule[] = [
  { kind: "one bit missing", find: new RegExp(`\\s*\\|\\s*${BIT}`, "g"), put: () => "" },
  { kind: "one bit missing", find: new RegExp(`${BIT}\\s*\\|\\s*`, "g"), put: () => "" },
  {
    kind: "another prescaler bit",
    find: /\bCS(\d)(\d)\b/g,
    put: (_, timer, bit) => `CS${timer}${(Number(bit) + 1) % 3}`,
  },
  {
    kind: "prescaler one place on",
    find: /((?:TCCR\dB)[^;\n]*?\b0[xb][0-9A-Fa-f]*|TCCR\dB\s*=\s*\d*)([1-4])\b(?=\s*;)/g,
    put: (_, before, digit) => `${before}${Number(digit) + 1}`,
  },
  { kind: "|= in place of =", find: new RegExp(`\\b(${CONTROL})\\s*=\\s(?!=)`, "g"), put: (_, name) => `${name} |= ` },
  { kind: "= in place of |=", find: new RegExp(`\\b(${CONTROL})\\s*\\|=`, "g"), put: (_, name) => `${name} =` },
  {
    kind: "mask forgotten",
    find: new RegExp(`\\b(${CONTROL})\\s*=\\s*\\(?\\s*\\1\\s*&[^;|]*\\|\\s*([^;]+);`, "g"),
    put: (_, name, bits) => `${name} = ${name} | ${bits};`,
  },
  {
    kind: "operator precedence",
    find: new RegExp(
      `\\b(${CONTROL})\\s*=\\s*\\(\\s*\\1\\s*&\\s*([^;|()]+(?:\\([^;()]*\\))?)\\s*\\)\\s*\\|\\s*([^;|]+);`,
      "g",
    ),
    put: (_, name, mask, bits) => `${name} = ${name} | ${bits} & ${mask};`,
  },
  {
    kind: "TOP one more",
    find: /\b(OCR\dA|ICR\d)\s*=\s*(\d+)\s*;/g,
    put: (_, name, value) => `${name} = ${Number(value) + 1};`,
  },
  {
    kind: "TOP one less",
    find: /\b(OCR\dA|ICR\d)\s*=\s*(\d+)\s*;/g,
    put: (_, name, value) => (Number(value) < 2 ? null : `${name} = ${Number(value) - 1};`),
  },
  {
    kind: "hexadecimal for decimal",
    find: /\b(OCR\dA|ICR\d)\s*=\s*([1-9]\d+)\s*;/g,
    put: (_, name, value) => `${name} = 0x${value};`,
  },
  {
    kind: "octal for decimal",
    find: /\b(OCR\dA|ICR\d)\s*=\s*([1-7][0-7]+)\s*;/g,
    put: (_, name, value) => `${name} = 0${value};`,
  },
  {
    kind: "line left out",
    find: new RegExp(`^[ \\t]*(?:${CONTROL}|OCR\\dA|ICR\\d)\\s*[|&]?=\\s[^;\\n]*;`, "gm"),
    put: () => "",
  },
];

/** Every slip at every place where it can be made. */
export function slippedFrom(text: string): readonly SlippedSketch[] {
  const found: SlippedSketch[] = [];
  for (const { kind, find, put } of RULES) {
    for (const match of text.matchAll(find)) {
      const changed = put(...match);
      if (changed === null) continue;
      found.push({ kind, text: text.slice(0, match.index) + changed + text.slice(match.index + match[0].length) });
    }
  }
  return found;
}
