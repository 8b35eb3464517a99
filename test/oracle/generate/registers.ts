/** Random writes to timer registers, pins and ports in the many ways in which people write them. */
import type { Dice } from "./dice.js";
import type { Expressions, Names } from "./expressions.js";
import { type Expr, U8, U16 } from "./types.js";

export interface TimerFacts {
  readonly number: number;
  readonly wide: boolean;
  /** Channel letters with their board pins and port bits. */
  readonly channels: readonly { letter: string; pin: number; port: string; bit: number }[];
}

export const UNO_TIMERS: readonly TimerFacts[] = [
  { number: 0, wide: false, channels: [ch("A", 6, "D", 6), ch("B", 5, "D", 5)] },
  { number: 1, wide: true, channels: [ch("A", 9, "B", 1), ch("B", 10, "B", 2)] },
  { number: 2, wide: false, channels: [ch("A", 11, "B", 3), ch("B", 3, "D", 3)] },
];

export const MEGA_TIMERS: readonly TimerFacts[] = [
  { number: 0, wide: false, channels: [ch("B", 4, "G", 5)] },
  { number: 1, wide: true, channels: [ch("A", 11, "B", 5), ch("B", 12, "B", 6)] },
  { number: 2, wide: false, channels: [ch("A", 10, "B", 4), ch("B", 9, "H", 6)] },
  { number: 3, wide: true, channels: [ch("A", 5, "E", 3), ch("B", 2, "E", 4), ch("C", 3, "E", 5)] },
  { number: 4, wide: true, channels: [ch("A", 6, "H", 3), ch("B", 7, "H", 4), ch("C", 8, "H", 5)] },
  { number: 5, wide: true, channels: [ch("A", 46, "L", 3), ch("B", 45, "L", 4), ch("C", 44, "L", 5)] },
];

function ch(letter: string, pin: number, port: string, bit: number) {
  return { letter, pin, port, bit };
}

/** Lines of code, without indentation. */
export type Lines = string[];

export class Registers {
  constructor(
    private readonly dice: Dice,
    private readonly expressions: Expressions,
    readonly timers: readonly TimerFacts[],
  ) {}

  /** Everything of a timer that can be read in an expression. */
  readable(): Expr[] {
    return this.timers.flatMap(({ number: n, wide, channels }) => [
      { text: `TCCR${n}A`, type: U8, min: 0, max: 255, level: 16 },
      { text: `TCCR${n}B`, type: U8, min: 0, max: 255, level: 16 },
      ...channels.map(({ letter }) => ({
        text: `OCR${n}${letter}`,
        type: wide ? U16 : U8,
        min: 0,
        max: wide ? 65535 : 255,
        level: 16,
      })),
      ...(wide ? [{ text: `ICR${n}`, type: U16, min: 0, max: 65535, level: 16 }] : []),
    ]);
  }

  /** A whole, mostly sensible set-up of one timer: direction, mode, prescaler, TOP and duty, in some order. */
  scheme(names: Names): Lines {
    const { dice } = this;
    const timer = dice.pick(this.timers);
    const { number: n, wide } = timer;
    const channel = dice.pick(timer.channels);
    const mode = dice.pick(wide ? [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 14, 15] : [0, 1, 2, 3, 5, 7]);
    const clock = n === 2 ? dice.int(1, 7) : dice.int(1, 5);
    const com = dice.pick([1, 2, 2, 2, 3]);
    const low = mode & 3;
    const high = mode >> 2;
    const a = [
      ...(com & 2 ? [`COM${n}${channel.letter}1`] : []),
      ...(com & 1 ? [`COM${n}${channel.letter}0`] : []),
      ...(low & 2 ? [`WGM${n}1`] : []),
      ...(low & 1 ? [`WGM${n}0`] : []),
    ];
    const b = [
      ...(high & 2 ? [`WGM${n}3`] : []),
      ...(high & 1 ? [`WGM${n}2`] : []),
      ...(clock & 4 ? [`CS${n}2`] : []),
      ...(clock & 2 ? [`CS${n}1`] : []),
      ...(clock & 1 ? [`CS${n}0`] : []),
    ];
    const top = wide
      ? dice.pick([99, 199, 320, 799, 1023, 2000, 7999, 39999])
      : dice.pick([49, 99, 124, 199, 248, 254]);
    const tops: Lines = [];
    if (wide && [8, 10, 12, 14].includes(mode)) tops.push(`ICR${n} = ${this.topText(names, top)};`);
    if (wide ? [4, 9, 11, 15].includes(mode) : [2, 5, 7].includes(mode)) {
      tops.push(`OCR${n}A = ${this.topText(names, top)};`);
    }
    const duty = `OCR${n}${channel.letter} = ${this.compareText(names, top)};`;
    const control = [
      `TCCR${n}A ${dice.pick(["=", "=", "=", "|="])} ${this.bits(a)};`,
      `TCCR${n}B ${dice.pick(["=", "=", "=", "|="])} ${this.bits(b)};`,
    ];
    const direction = dice.chance(92) ? [this.output(channel)] : [];
    const values = tops.some((line) => line.startsWith(duty.split(" ")[0]!)) ? tops : [...tops, duty];
    if (dice.chance(25)) return [...direction, ...values, ...control];
    if (dice.chance(25)) return [...control, ...values, ...direction];
    return [...direction, `TCCR${n}A = 0;`, `TCCR${n}B = 0;`, ...values, ...control];
  }

  /** One write somewhere. */
  write(names: Names): Lines {
    const { dice } = this;
    const timer = dice.pick(this.timers);
    const { number: n, wide, channels } = timer;
    const channel = dice.pick(channels);
    const kind = dice.int(0, 99);
    if (kind < 16) return [`OCR${n}${channel.letter} = ${this.compareText(names, wide ? 1023 : 255)};`];
    if (kind < 22)
      return [
        `OCR${n}${channel.letter} ${dice.pick(["+=", "-=", "|=", "&=", "^="])} ${this.expressions.bounded(names, 2, 0, 255).text};`,
      ];
    if (kind < 34) return [this.clockWrite(n)];
    if (kind < 44) return [`TCCR${n}A ${this.connect(n, channel.letter)};`];
    if (kind < 50 && wide) return [`ICR${n} = ${this.topText(names, dice.pick([320, 999, 4999]))};`];
    if (kind < 56)
      return [
        `TCCR${n}A = ${this.expressions.literal(dice.pick([0, 0x23, 0x81, 0x82, 0xa1, 0xb3, 0x40, 0xf0, dice.int(0, 255)])).text};`,
      ];
    if (kind < 60)
      return [
        `TCCR${n}B = ${this.expressions.literal(dice.pick([1, 2, 3, 4, 5, 9, 0x0a, 0x0b, 0x11, 0x12, 0x19, 0x1a])).text};`,
      ];
    if (kind < 76)
      return [
        `analogWrite(${channel.pin}, ${this.expressions.bounded(names, 3, 0, dice.pick([255, 255, 255, 300])).text});`,
      ];
    if (kind < 82)
      return [
        `digitalWrite(${channel.pin}, ${dice.pick(["HIGH", "LOW", "1", this.expressions.bounded(names, 2, 0, 1).text])});`,
      ];
    if (kind < 86) return [`pinMode(${channel.pin}, ${dice.pick(["OUTPUT", "OUTPUT", "INPUT", "INPUT_PULLUP"])});`];
    if (kind < 90) return [this.output(channel)];
    if (kind < 93) return [`PORT${channel.port} ${dice.pick(["|=", "^="])} _BV(${channel.bit});`];
    if (kind < 96)
      return [
        `${dice.pick(["bitSet", "bitClear"])}(TCCR${n}B, ${dice.pick([`CS${n}0`, `CS${n}1`, `CS${n}2`, `WGM${n}2`])});`,
      ];
    if (wide && dice.chance(60)) {
      const value = this.expressions.value(names, 2).text;
      return [
        `uint16_t halves${n}${channel.letter} = ${value};`,
        `OCR${n}${channel.letter}H = halves${n}${channel.letter} >> 8;`,
        `OCR${n}${channel.letter}L = halves${n}${channel.letter} & 0xFF;`,
      ].map((line, index, all) => (index === 0 ? `{ ${line}` : index === all.length - 1 ? `${line} }` : line));
    }
    return [`TCNT${n} = 0;`];
  }

  /** A write that an interrupt routine may make: duty or connection. */
  routineWrite(names: Names): Lines {
    const { dice } = this;
    const { number: n, wide, channels } = dice.pick(this.timers);
    const { letter } = dice.pick(channels);
    if (dice.chance(75)) return [`OCR${n}${letter} = ${this.compareText(names, wide ? 1023 : 255)};`];
    return [`TCCR${n}A ${this.connect(n, letter)};`];
  }

  private clockWrite(n: number): string {
    const { dice } = this;
    const clock = n === 2 ? dice.int(1, 7) : dice.int(1, 5);
    const value = this.expressions.literal(clock).text;
    const mask = dice.pick(["0xF8", "B11111000", "0b11111000", "~7", "248"]);
    const register = `TCCR${n}B`;
    return dice.pick([
      `${register} = ${register} & ${mask} | ${value};`,
      `${register} = (${register} & ${mask}) | ${value};`,
      `${register} = ${value} | (${register} & ${mask});`,
      `${register} = ${register} | ${value} & ${mask};`,
      `${register} |= ${value};`,
      `${register} &= ${mask};`,
      `{ ${register} &= ${mask}; ${register} |= ${value}; }`,
      `${register} ^= ${value};`,
    ]);
  }

  private connect(n: number, letter: string): string {
    const bit = `COM${n}${letter}${this.dice.chance(75) ? 1 : 0}`;
    return this.dice.pick([
      `|= _BV(${bit})`,
      `|= (1 << ${bit})`,
      `&= ~_BV(${bit})`,
      `&= ~(1 << ${bit})`,
      `^= bit(${bit})`,
    ]);
  }

  private output(channel: { pin: number; port: string; bit: number }): string {
    return this.dice.pick([
      `pinMode(${channel.pin}, OUTPUT);`,
      `pinMode(${channel.pin}, OUTPUT);`,
      `DDR${channel.port} |= (1 << ${channel.bit});`,
      `DDR${channel.port} |= _BV(P${channel.port}${channel.bit});`,
      `bitSet(DDR${channel.port}, ${channel.bit});`,
    ]);
  }

  private bits(names: readonly string[]): string {
    if (names.length === 0) return "0";
    const form = this.dice.int(0, 3);
    return names
      .map((name) =>
        form === 0 ? `_BV(${name})` : form === 1 ? `(1 << ${name})` : form === 2 ? `1 << ${name}` : `bit(${name})`,
      )
      .join(this.dice.chance(80) ? " | " : "|");
  }

  private topText(names: Names, top: number): string {
    const { dice } = this;
    if (dice.chance(50)) return String(top);
    if (dice.chance(40)) return `F_CPU / ${dice.pick([8, 64])} / ${dice.pick([50, 100, 250, 440, 1000])} - 1`;
    return this.expressions.bounded(names, 3, dice.pick([1, 20, 100]), top + 200).text;
  }

  private compareText(names: Names, top: number): string {
    const { dice } = this;
    if (dice.chance(25)) return String(dice.pick([0, 1, top >> 1, top - 1, top, top + 1]));
    if (dice.chance(60)) return this.expressions.bounded(names, 3, 0, top).text;
    return this.expressions.value(names, 3).text;
  }
}
