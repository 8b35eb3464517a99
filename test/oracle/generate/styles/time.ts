/** Interrupt routines of every kind, flags between them and loop, millis, tone, waits, sequences of steps. */
import { type Draft, indent } from "../draft.js";
import type { Lines } from "../registers.js";
import { U8 } from "../types.js";
import type { Style } from "./styles.js";

export const TIME_STYLES: readonly Style[] = [
  { percent: 8, write: compareRoutine },
  { percent: 5, write: tickFlag },
  { percent: 4, write: attached },
  { percent: 7, write: everyMilliseconds },
  { percent: 6, write: tones },
  { percent: 7, write: waits },
  { percent: 8, write: sequence },
  { percent: 5, write: softwarePulse },
];

/** A compare or overflow routine that sets duties, steps through a table or switches a pin. */
function compareRoutine(draft: Draft): void {
  const { dice } = draft;
  const { number: n, channels } = dice.pick(draft.timers.filter(({ number }) => number !== 0));
  const { letter } = dice.pick(channels);
  const [vector, mask] = dice.chance(70) ? [`COMP${letter}`, `OCIE${n}${letter}`] : ["OVF", `TOIE${n}`];
  const at = draft.fresh("at");
  const other = dice.pick(draft.timers);
  const unit = dice.pick(other.channels);
  const size = dice.int(2, 4);
  const values = Array.from({ length: size }, () => dice.int(0, 255));
  const rows = draft.fresh("wave");
  draft.head.push(`volatile uint8_t ${at} = 0;`, `const uint8_t ${rows}[] = { ${values.join(", ")} };`);
  const act: Lines = dice.pick([
    [`if (++${at} >= ${size}) ${at} = 0;`, `OCR${other.number}${unit.letter} = ${rows}[${at}];`],
    [`PORT${unit.port} ^= _BV(${unit.bit});`],
    [`PIN${unit.port} = 1 << ${unit.bit};`],
    [`digitalWrite(${unit.pin}, ${at} & 1);`, `${at}++;`],
    [
      `${at}++;`,
      `if (${at} & ${dice.pick([1, 4, 8])}) OCR${other.number}${unit.letter} = ${dice.int(0, 255)};`,
      `else TCCR${other.number}A ^= _BV(COM${other.number}${unit.letter}1);`,
    ],
  ]);
  draft.body.push(`ISR(TIMER${n}_${vector}_vect) {`, ...indent(act), "}", "");
  draft.start.push(`TIMSK${n} ${dice.pick(["|=", "="])} ${dice.pick([`_BV(${mask})`, `(1 << ${mask})`])};`);
  if (dice.chance(30)) draft.start.push("sei();");
  if (dice.chance(25)) draft.statements.push(() => [`TIMSK${n} &= ~_BV(${mask});`]);
}

/** A routine sets a flag, loop answers it. */
function tickFlag(draft: Draft): void {
  const { dice } = draft;
  const timer = dice.pick(draft.timers.filter(({ number }) => number > 2 || number === 1));
  if (draft.body.some((line) => line.includes(`TIMER${timer.number}_OVF`))) return;
  const tick = draft.fresh("tick");
  draft.head.push(`volatile ${dice.pick(["bool", "byte"])} ${tick};`);
  draft.body.push(`ISR(TIMER${timer.number}_OVF_vect) { ${tick} = ${dice.pick(["true", "1"])}; }`, "");
  draft.start.push(`TIMSK${timer.number} |= _BV(TOIE${timer.number});`);
  const unit = dice.pick(["OCR2A", "OCR2B", "OCR0B"]);
  const count = draft.fresh("ticks");
  draft.head.push(`byte ${count};`);
  draft.turn.push(
    `if (${tick}) {`,
    `  ${tick} = 0;`,
    `  ${unit} = ${dice.pick([`++${count} & 0x1F`, String(dice.int(0, 255)), `${count} ^= ${dice.int(1, 200)}`])};`,
    "}",
  );
}

/** attachInterrupt and pin changes: inputs decide. */
function attached(draft: Draft): void {
  const { dice } = draft;
  const pressed = draft.fresh("pressed");
  const presses = draft.fresh("presses");
  const unit = dice.pick(["OCR2A", "OCR2B", "OCR1A"]);
  draft.head.push(`volatile byte ${presses} = 0;`);
  draft.body.push(`void ${pressed}() { ${presses}++; ${dice.pick([`${unit} = ${presses};`, ""])} }`, "");
  draft.start.push(
    `attachInterrupt(${dice.pick(["0", "digitalPinToInterrupt(2)"])}, ${pressed}, ${dice.pick(["CHANGE", "RISING", "FALLING"])});`,
  );
  draft.turn.push(`if (${presses} > ${dice.int(1, 5)}) { ${presses} = 0; ${unit} = ${dice.int(0, 255)}; }`);
}

/** Steps by millis(). */
function everyMilliseconds(draft: Draft): void {
  const { dice } = draft;
  const [since, state] = [draft.fresh("since"), draft.fresh("state")];
  const unit = dice.pick(["OCR2A", "OCR2B", "OCR1A", "OCR1B"]);
  const count = dice.int(2, 4);
  draft.head.push(`unsigned long ${since};`, `${dice.pick(["byte", "int"])} ${state} = 0;`);
  draft.turn.push(
    `if (millis() - ${since} >= ${dice.int(2, 20)}) {`,
    `  ${since} ${dice.pick(["= millis()", `+= ${dice.int(2, 20)}`])};`,
    `  ${state} = (${state} + 1) % ${count};`,
    `  switch (${state}) {`,
    ...Array.from({ length: count }, (_, index) => `    case ${index}: ${unit} = ${dice.int(0, 255)}; break;`),
    "  }",
    "}",
  );
}

function tones(draft: Draft): void {
  const { dice } = draft;
  // The core's tone() has this routine for itself.
  if (draft.body.some((line) => line.includes("TIMER2_COMPA"))) return;
  const pin = dice.pick([8, 3, 11, 4, 9]);
  draft.statements.push((names) =>
    dice.pick([
      [`tone(${pin}, ${dice.int(31, 5000)});`],
      [`tone(${pin}, ${draft.between(names, 40, 4000)});`],
      [`tone(${pin}, ${dice.int(100, 2000)}, ${dice.int(1, 30)});`],
      [`noTone(${pin});`],
      [`tone(${pin}, ${dice.int(100, 9000)});`, `delay(${dice.int(1, 9)});`, `noTone(${pin});`],
    ]),
  );
}

function waits(draft: Draft): void {
  const { dice } = draft;
  draft.head.unshift("#include <util/delay.h>");
  draft.statements.push((names) =>
    dice.pick([
      [`_delay_ms(${dice.int(1, 5)});`],
      [`_delay_us(${dice.int(5, 300)});`],
      [`delay(${draft.between(names, 1, 9)});`],
      [`for (volatile byte k = 0; k < ${dice.int(5, 200)}; k++) ;`],
      [
        `for (byte k = 0; k < ${dice.int(2, 6)}; k++) { OCR2B += ${dice.int(1, 30)}; delayMicroseconds(${dice.int(20, 400)}); }`,
      ],
      [`__asm__ __volatile__ ("nop");`],
    ]),
  );
}

/** A machine of states whose transitions depend on a counter. */
function sequence(draft: Draft): void {
  const { dice } = draft;
  const type = draft.fresh("Phase");
  const [state, turns] = [draft.fresh("phase"), draft.fresh("turns")];
  const { number: n, channels } = dice.pick(draft.timers);
  const { letter } = dice.pick(channels);
  const unit = `OCR${n}${letter}`;
  draft.head.push(
    `enum ${type} { OFF_${type}, WARM_${type}, FULL_${type} };`,
    `${type} ${state} = ${dice.pick([`OFF_${type}`, `WARM_${type}`])};`,
    `${dice.pick(["byte", "unsigned int"])} ${turns} = 0;`,
  );
  const name = draft.fresh("advance");
  draft.body.push(
    `void ${name}() {`,
    `  ${turns}++;`,
    `  if (${state} == OFF_${type}) {`,
    `    ${unit} = ${dice.int(0, 40)};`,
    `    if (${turns} > ${dice.int(1, 4)}) { ${state} = WARM_${type}; ${turns} = 0; }`,
    `  } else if (${state} == WARM_${type}) {`,
    `    ${dice.pick([`${unit} += 5;`, `${unit} = 100 + ${turns};`, `TCCR${n}A |= _BV(COM${n}${letter}1);`])}`,
    `    if (${turns} >= ${dice.int(1, 5)}) ${state} = FULL_${type};`,
    "  } else {",
    `    ${unit} = ${dice.int(200, 255)};`,
    ...(dice.chance(60) ? [`    ${state} = (${type})(${state} - ${dice.int(1, 2)});`, `    ${turns} = 0;`] : []),
    "  }",
    "}",
    "",
  );
  draft.actions.push({ name, parameters: [] });
  draft.turn.push(`${name}();`);
  draft.globals.push(draft.variable(turns, U8, false));
}

function softwarePulse(draft: Draft): void {
  const { dice } = draft;
  const { pin, port, bit } = dice.pick(dice.pick(draft.timers).channels);
  if (dice.chance(50)) draft.statements.push(() => [`pinMode(${pin}, OUTPUT);`]);
  draft.statements.push((names) =>
    dice.pick([
      [
        `digitalWrite(${pin}, HIGH);`,
        `delayMicroseconds(${draft.between(names, 10, 400)});`,
        `digitalWrite(${pin}, LOW);`,
      ],
      [`PORT${port} |= 1 << ${bit};`, `delay(1);`, `PORT${port} &= ~(1 << ${bit});`],
      [`PIN${port} = _BV(${bit});`],
      [`for (byte k = 0; k < ${dice.int(2, 8)}; k++) { PORT${port} ^= _BV(${bit}); delayMicroseconds(100); }`],
      [`digitalWrite(${pin}, !digitalRead(${pin}));`],
    ]),
  );
}
