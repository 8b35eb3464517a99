/** Random small sketches with a want: what people have when they want another frequency. The same seed gives the same sketch. */
import type { BoardId } from "../compile.js";
import { Dice } from "../generate/dice.js";

export interface WantedSketch {
  readonly board: BoardId;
  readonly text: string;
  /** `PB1` */
  readonly port: string;
  /** What the analog inputs read: the same all the time, so that a duty worked out of them is one duty. */
  readonly reading: number;
  /** True where the sketch itself moves the duty all the time. */
  readonly varying: boolean;
}

interface WantedPin {
  readonly pin: number;
  readonly port: string;
  readonly timer: number;
  readonly letter: string;
  /** The other unit's pin of the same timer. */
  readonly other: number;
}

/** From the packaged core's pins_arduino.h (standard and mega). */
const PINS: Readonly<Record<"nano" | "mega", readonly WantedPin[]>> = {
  nano: [
    { pin: 9, port: "PB1", timer: 1, letter: "A", other: 10 },
    { pin: 10, port: "PB2", timer: 1, letter: "B", other: 9 },
    { pin: 3, port: "PD3", timer: 2, letter: "B", other: 11 },
    { pin: 11, port: "PB3", timer: 2, letter: "A", other: 3 },
    { pin: 5, port: "PD5", timer: 0, letter: "B", other: 6 },
  ],
  mega: [
    { pin: 11, port: "PB5", timer: 1, letter: "A", other: 12 },
    { pin: 12, port: "PB6", timer: 1, letter: "B", other: 11 },
    { pin: 9, port: "PH6", timer: 2, letter: "B", other: 10 },
    { pin: 5, port: "PE3", timer: 3, letter: "A", other: 2 },
    { pin: 3, port: "PE5", timer: 3, letter: "C", other: 5 },
    { pin: 7, port: "PH4", timer: 4, letter: "B", other: 6 },
    { pin: 45, port: "PL4", timer: 5, letter: "B", other: 46 },
  ],
};

const HERTZ = [
  50, 100, 250, 400, 500, 1000, 1500, 2000, 4000, 5000, 8000, 10_000, 16_000, 20_000, 25_000, 31_250, 38_000, 40_000,
  62_500,
];

export function wantedSketch(seed: number): WantedSketch {
  const dice = new Dice(seed);
  const board = dice.chance(65) ? "nano" : "mega";
  const pin = dice.pick(PINS[board]);
  const named = dice.chance(40);
  const name = named ? "lamp" : String(pin.pin);
  const hz = dice.chance(60) ? dice.pick(HERTZ) : Math.round(40 * 2 ** (dice.int(0, 1000) / 95));
  const demands = [`${hz} Hz${dice.chance(70) ? ` +-${dice.pick([0.5, 1, 2, 5])} %` : ""}`];
  if (dice.chance(25)) demands.push(`${dice.pick([20, 50, 100])} steps`);
  if (dice.chance(20)) demands.push(`duty ${dice.pick([5, 10, 20])}..${dice.pick([80, 90, 95])} %`);
  const draft = new SketchDraft(dice, pin, name);
  draft.fill();
  const unit = dice.pick(["  ", "\t", "    "]);
  const lines = [
    ...(board === "nano" ? [] : [`// for pulsewright: board ${board}`]),
    `// wants ${named ? name : `D${pin.pin}`}: ${demands.join(", ")}`,
    ...(named ? [`const ${dice.pick(["int", "byte", "uint8_t"])} lamp = ${pin.pin};`] : []),
    ...draft.head,
    "",
    ...["void setup() {", ...draft.setup.map((line) => unit + line), "}", ""],
    "void loop() {",
    ...draft.loop.map((line) => unit + line),
    "}",
    "",
  ];
  const newline = dice.chance(10) ? "\r\n" : "\n";
  return { board, text: lines.join(newline), port: pin.port, reading: dice.int(40, 990), varying: draft.varying };
}

class SketchDraft {
  readonly head: string[] = [];
  readonly setup: string[] = [];
  readonly loop: string[] = [];
  varying = false;

  constructor(
    readonly dice: Dice,
    readonly pin: WantedPin,
    readonly name: string,
  ) {}

  fill(): void {
    const { dice, setup, loop } = this;
    if (dice.chance(40)) setup.push("Serial.begin(9600);");
    const ownTimer = dice.chance(55);
    if (dice.chance(60) || ownTimer) setup.push(`pinMode(${this.name}, OUTPUT);`);
    if (dice.chance(15)) setup.push(`digitalWrite(${this.name}, HIGH);`);
    if (dice.chance(20)) setup.push(`analogWrite(${this.name}, ${dice.int(5, 250)});`, `delay(${dice.int(1, 8)});`);
    // Pulses that are under way when the timer is set anew.
    if (dice.chance(20))
      setup.push(`analogWrite(${this.name}, analogRead(A1) / 4);`, `delayMicroseconds(${dice.int(900, 5000)});`);
    if (ownTimer) this.#setTimer();
    this.#duty(ownTimer);
    if (dice.chance(15)) this.#another();
    if (dice.chance(15)) this.#counting();
    if (loop.length === 0 || dice.chance(60)) loop.push(`delay(${dice.int(1, 6)});`);
  }

  /** The timer as somebody has set it so far, in one of the ways in which people do. */
  #setTimer(): void {
    const { dice, setup, pin } = this;
    const { timer: n, letter } = pin;
    const bit = dice.pick([(b: string) => `_BV(${b})`, (b: string) => `(1 << ${b})`, (b: string) => `bit(${b})`]);
    const com = bit(`COM${n}${letter}1`);
    const clock = bit(`CS${n}1`);
    const lines = dice.pick([
      () => [`TCCR${n}A = ${com} | ${bit(`WGM${n}0`)};`, `TCCR${n}B = ${clock};`],
      () => [`TCCR${n}B = (TCCR${n}B & 0xF8) | 0x0${dice.pick([1, 2, 3])};  // faster`],
      () => [
        `TCCR${n}A |= ${com} | ${bit(`WGM${n}1`)} | ${bit(`WGM${n}0`)};`,
        `TCCR${n}B = ${bit(`WGM${n}2`)} | ${clock};`,
      ],
      () => [`TCCR${n}B &= ~7;`, `TCCR${n}B |= ${clock};`],
    ])();
    if (dice.chance(25)) {
      this.head.push("", "void setTimer() {", ...lines.map((line) => `  ${line}`), "}");
      setup.push("setTimer();");
    } else setup.push(...lines);
  }

  #duty(ownTimer: boolean): void {
    const { dice, setup, loop, pin, name } = this;
    const compare = `OCR${pin.timer}${pin.letter}`;
    const value = dice.int(3, 250);
    const ways: (() => void)[] = [
      () => setup.push(`analogWrite(${name}, ${value});`),
      () => loop.push(`analogWrite(${name}, ${value});`),
      () => loop.push(`analogWrite(${name}, analogRead(A0) / 4);`),
      () => loop.push("int knob = analogRead(A0);", `analogWrite(${name}, knob >> 2);`),
      () => loop.push(`analogWrite(${name}, ${value});`, "delay(2);"),
      () => {
        this.varying = true;
        loop.push(
          `for (int level = 10; level < 200; level += ${dice.int(30, 60)}) {`,
          `  analogWrite(${name}, level);`,
          "  delay(2);",
          "}",
        );
      },
      () => undefined,
    ];
    if (ownTimer) {
      ways.push(
        () => setup.push(`${compare} = ${value};`),
        () => setup.push(`${compare} = ${value};`),
        () => loop.push(`${compare} = analogRead(A0) / 4;`),
      );
    }
    dice.pick(ways)();
  }

  /** The other pin of the timer in use as well. */
  #another(): void {
    const { dice, setup, loop, pin } = this;
    (dice.chance(50) ? setup : loop).push(`analogWrite(${pin.other}, ${dice.int(10, 240)});`);
  }

  /** An interrupt routine on the timer that is wanted. */
  #counting(): void {
    const n = this.pin.timer;
    if (n === 0) return;
    this.head.push("volatile unsigned int rounds;", `ISR(TIMER${n}_OVF_vect) { rounds++; }`);
    this.setup.push(`TIMSK${n} |= _BV(TOIE${n});`);
  }
}
