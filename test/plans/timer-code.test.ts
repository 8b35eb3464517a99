/**
 * The register code of every setting of every timer: as text in the three styles, and by what the engine makes of it
 * after whatever the registers held before. The simulator's word on it is in test/oracle/plans.
 */
import { describe, expect, test } from "vitest";
import { BIT_FUNCTIONS, SHIFTS, UNDERSCORE_BV } from "../../server/look/naming.js";
import { type TimerCodeRequest, timerCode } from "../../server/plans/timer-code.js";
import type { Chip, TimerFact } from "../../shared-model/chip.js";
import { findChip } from "../../shared-model/chips/chips.js";
import { analysedText } from "../runner/analysed-sketch.js";

const chip = findChip("atmega328p")!;

function request(over: Partial<TimerCodeRequest> & Pick<TimerCodeRequest, "setting" | "units">): TimerCodeRequest {
  return { chip, keepsCapture: false, guard: null, style: UNDERSCORE_BV, remark: null, ...over };
}

const onPin3 = { timer: 2, mode: 5, clock: 3, top: 250, topRegister: "OCR2A" };
const onPin9 = { timer: 1, mode: 14, clock: 1, top: 639, topRegister: "ICR1" };

describe("as text", () => {
  test("8 bits, TOP in the other unit's register", () => {
    const units = [{ unit: "OC2B", com: 2, value: 125, mayBeHigh: false }] as const;
    expect(timerCode(request({ setting: onPin3, units }))).toEqual([
      "TCCR2B = 0;",
      "TCCR2A = 0;",
      "TCNT2 = 0;",
      "OCR2A = 250;",
      "OCR2B = 125;",
      "TCCR2A = _BV(COM2B1) | _BV(WGM20);",
      "TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);",
    ]);
  });

  test("16 bits, TOP in ICR1: through CTC, ICR1 once the mode takes it, the clock alone at the end", () => {
    const units = [{ unit: "OC1A", com: 2, value: 320, mayBeHigh: false }] as const;
    expect(timerCode(request({ setting: onPin9, units, style: SHIFTS }))).toEqual([
      "TCCR1B = 0;",
      "TCCR1A = 0;",
      "TCNT1 = 0;",
      "OCR1A = 320;",
      "TCCR1B = (1 << WGM13) | (1 << WGM12);",
      "ICR1 = 639;",
      "TCCR1A = (1 << COM1A1) | (1 << WGM11);",
      "TCCR1B |= (1 << CS10);",
    ]);
  });

  test("an output that may be high is pulled low first, by the strobe where the timer has it", () => {
    const units = [{ unit: "OC2B", com: 3, value: 125, mayBeHigh: true }] as const;
    expect(timerCode(request({ setting: onPin3, units })).slice(0, 4)).toEqual([
      "TCCR2B = 0;",
      "TCCR2A = _BV(COM2B1);",
      "TCCR2B = _BV(FOC2B);",
      "TCNT2 = 0;",
    ]);
    const wide = [{ unit: "OC1A", com: 2, value: 320, mayBeHigh: true }] as const;
    expect(timerCode(request({ setting: onPin9, units: wide })).slice(0, 4)).toEqual([
      "TCCR1B = 0;",
      "TCCR1A = _BV(COM1A1);",
      "TCCR1C = _BV(FOC1A);",
      "TCNT1 = 0;",
    ]);
  });

  test("bits of others stay: the other unit's connection, the capture's noise and edge bits", () => {
    const units = [
      { unit: "OC1A", com: 2, value: 320, mayBeHigh: false },
      { unit: "OC1B", com: null, value: null, mayBeHigh: false },
    ] as const;
    expect(timerCode(request({ setting: onPin9, units, keepsCapture: true }))).toEqual([
      "TCCR1B &= ~(_BV(WGM13) | _BV(WGM12) | _BV(CS12) | _BV(CS11) | _BV(CS10));",
      "TCCR1A &= ~(_BV(COM1A1) | _BV(COM1A0) | _BV(WGM11) | _BV(WGM10));",
      "TCNT1 = 0;",
      "OCR1A = 320;",
      "TCCR1B |= _BV(WGM13) | _BV(WGM12);",
      "ICR1 = 639;",
      "TCCR1A |= _BV(COM1A1) | _BV(WGM11);",
      "TCCR1B |= _BV(CS10);",
    ]);
  });

  test("bit functions, and the interrupt flag saved", () => {
    const units = [{ unit: "OC1A", com: 2, value: 320, mayBeHigh: false }] as const;
    expect(
      timerCode(request({ setting: onPin9, units, style: BIT_FUNCTIONS, guard: "flags", remark: "25 kHz" })),
    ).toEqual([
      "uint8_t flags = SREG;",
      "noInterrupts();",
      "TCCR1B = 0;",
      "TCCR1A = 0;",
      "TCNT1 = 0;",
      "OCR1A = 320;",
      "TCCR1B = bit(WGM13) | bit(WGM12);",
      "ICR1 = 639;",
      "TCCR1A = bit(COM1A1) | bit(WGM11);",
      "bitSet(TCCR1B, CS10);  // 25 kHz",
      "SREG = flags;",
    ]);
  });
});

interface Case {
  readonly chip: Chip;
  readonly timer: TimerFact;
  readonly mode: TimerFact["modes"][number];
  readonly at: number;
}

/** Every PWM mode of every timer, one unit each, the board's pins by port. */
function cases(): Case[] {
  const found: Case[] = [];
  for (const id of ["atmega328p", "atmega2560"]) {
    const each = findChip(id)!;
    for (const timer of each.timers) {
      for (const mode of timer.modes) {
        if (!mode.family.startsWith("fast") && !mode.family.startsWith("phase")) continue;
        const first = mode.top.kind === "compareA" ? 1 : 0;
        found.push({ chip: each, timer, mode, at: first + (mode.select % (timer.channels.length - first)) });
      }
    }
  }
  return found;
}

const BEFORE = [
  "",
  "TCCRnA = 0xA3; TCCRnB = 0x0A; OCRnA = 77; OCRnB = 201;",
  "TCCRnB = 0x1D; OCRnB = 9; TCCRnA |= 0x41;",
];

describe("the engine agrees", () => {
  test.each(cases())("$chip.id timer $timer.number mode $mode.select", async ({ chip: on, timer, mode, at }) => {
    const channel = timer.channels[at]!;
    const topRegister =
      mode.top.kind === "capture" ? timer.capture! : mode.top.kind === "compareA" ? timer.channels[0]!.compare : null;
    const top = mode.top.kind === "fixed" ? mode.top.value : timer.bits === 8 ? 199 : 9_999;
    const value = Math.floor(top / 3);
    const setting = { timer: timer.number, mode: mode.select, clock: 2, top, topRegister };
    const units = [{ unit: channel.unit, com: 2, value, mayBeHigh: true }] as const;
    const [letter, bit] = [channel.port[1]!, Number(channel.port[2])];
    for (const before of BEFORE) {
      const code = timerCode(request({ chip: on, setting, units }));
      const text = [
        `// for pulsewright: board ${on.id}`,
        "#include <avr/io.h>",
        "int main() {",
        before.replaceAll("n", String(timer.number)),
        ...code,
        `DDR${letter} |= _BV(${bit});`,
        "for (;;) {}",
        "}",
      ].join("\n");
      const { analysis } = await analysedText(text, "main.cpp");
      const signals = analysis.pins.find((pin) => pin.port === channel.port)?.signals;
      const dual = mode.family !== "fast";
      const periodTicks = 8 * (dual ? 2 * top : top + 1);
      const highTicks = 8 * (dual ? 2 * value : value + 1);
      expect(signals, before).toMatchObject([
        {
          kind: "pulse",
          driver: "timer",
          periodTicks: { min: periodTicks, max: periodTicks },
          highTicks: { min: highTicks, max: highTicks },
        },
      ]);
      expect(analysis.gaps).toEqual([]);
    }
  });
});
