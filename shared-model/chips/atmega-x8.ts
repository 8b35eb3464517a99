/**
 * The ATmega 168/328 family: what its members share. A member gives memory sizes and the few names in which its
 * avr-libc header differs (the older header names fewer bits; the silicon is the same).
 *
 * Source: ATmega48A/PA/88A/PA/168A/PA/328/P data sheet (DS40002061): sections 15 to 18 (timers), 30 (register
 * summary), 12.4 (interrupt vectors).
 */
import type { Chip, Citation } from "../chip.js";
import { asynchronousClocks, synchronousClocks } from "../timers/clock-tables.js";
import { eightBitTimer } from "../timers/eight-bit.js";
import { sixteenBitTimer } from "../timers/sixteen-bit.js";
import { commonWide, coreRows, port, portRows, serialAndAnalogRows, usartRows, usartWide } from "./peripherals.js";
import { numbered, row } from "./register-row.js";

const document = "ATmega48A/PA/88A/PA/168A/PA/328/P data sheet, DS40002061";
const cite = (section: string): Citation => ({ document, section });

export interface MegaX8 {
  readonly id: string;
  readonly macro: string;
  readonly ramBytes: number;
  readonly flashBytes: number;
  readonly eepromBytes: number;
  /** Whether the header is of the newer make, which names plain data bits and the P types' brown-out bits. */
  readonly newerHeader: boolean;
  /** How many EEPROM address bits of the high byte the header names. */
  readonly eepromHighBits: number;
}

/** In table order; numbers from 1, vector 0 is reset (DS40002061 section 12.4, table 12-6). */
const vectors = [
  "INT0",
  "INT1",
  "PCINT0",
  "PCINT1",
  "PCINT2",
  "WDT",
  "TIMER2_COMPA",
  "TIMER2_COMPB",
  "TIMER2_OVF",
  "TIMER1_CAPT",
  "TIMER1_COMPA",
  "TIMER1_COMPB",
  "TIMER1_OVF",
  "TIMER0_COMPA",
  "TIMER0_COMPB",
  "TIMER0_OVF",
  "SPI_STC",
  "USART_RX",
  "USART_UDRE",
  "USART_TX",
  "ADC",
  "EE_READY",
  "ANALOG_COMP",
  "TWI",
  "SPM_READY",
].map((name, index) => ({ name, number: index + 1 }));

export function megaX8(member: MegaX8): Chip {
  const named = member.newerHeader;
  const timer0 = eightBitTimer({
    number: 0,
    base: 0x44,
    interruptMask: 0x6e,
    flags: 0x35,
    ports: { a: "PD6", b: "PD5" },
    clocks: synchronousClocks("PD4"),
    powerReduction: { register: "PRR", bit: "PRTIM0" },
    prescalerReset: "PSRSYNC",
    ...(named ? { dataBits: { counter: "TCNT0_", a: "OCR0A_", b: "OCR0B_" } } : {}),
    citation: cite("15, 8-bit Timer/Counter0 with PWM"),
  });
  const timer1 = sixteenBitTimer({
    number: 1,
    base: 0x80,
    interruptMask: 0x6f,
    flags: 0x36,
    ports: ["PB1", "PB2"],
    clocks: synchronousClocks("PD5"),
    powerReduction: { register: "PRR", bit: "PRTIM1" },
    namedDataBits: named,
    citation: cite("16, 16-bit Timer/Counter1 with PWM"),
  });
  const timer2 = eightBitTimer({
    number: 2,
    base: 0xb0,
    interruptMask: 0x70,
    flags: 0x37,
    ports: { a: "PB3", b: "PD3" },
    clocks: asynchronousClocks,
    powerReduction: { register: "PRR", bit: "PRTIM2" },
    prescalerReset: "PSRASY",
    asynchronous: { register: "ASSR", bit: "AS2" },
    // The header gives the bits of both compare registers of timer 2 the same names.
    ...(named ? { dataBits: { counter: "TCNT2_", a: "OCR2_", b: "OCR2_" } } : {}),
    citation: cite("18, 8-bit Timer/Counter2 with PWM and Asynchronous Operation"),
  });
  const ramEnd = 0x100 + member.ramBytes - 1;
  return {
    id: member.id,
    macro: member.macro,
    registers: [
      ...portRows("B", 0x23),
      ...portRows("C", 0x26, 7),
      ...portRows("D", 0x29),
      ...timer0.registers,
      ...timer1.registers,
      ...timer2.registers,
      row("PCIFR", 0x3b, { PCIF0: 0, PCIF1: 1, PCIF2: 2 }, { writable: 0, strobes: 0x07, hardware: 0x07 }),
      row("EIFR", 0x3c, { INTF0: 0, INTF1: 1 }, { writable: 0, strobes: 0x03, hardware: 0x03 }),
      row("EIMSK", 0x3d, { INT0: 0, INT1: 1 }),
      ...(member.eepromHighBits > 0 && named
        ? [row("EEARH", 0x42, numbered("EEAR", member.eepromHighBits, 8))]
        : [row("EEARH", 0x42, {}, { writable: 0x01 })]),
      // TWAM0 … TWAM6 sit in bits 1 to 7 (section 22.9.6); the newer header counts them from 0, and a sketch gets what
      // the header says.
      ...serialAndAnalogRows({ dataBits: named, twamr: named ? numbered("TWAM", 7) : twamOfSheet }),
      ...(named ? [] : [row("MONDR", 0x51)]),
      row("MCUSR", 0x54, { PORF: 0, EXTRF: 1, BORF: 2, WDRF: 3 }, { hardware: 0x0f }),
      row(
        "MCUCR",
        0x55,
        { IVCE: 0, IVSEL: 1, PUD: 4, ...(named ? { BODSE: 5, BODS: 6 } : {}) },
        { writable: named ? 0x73 : 0x13, hardware: named ? 0x61 : 0x01 },
      ),
      row(
        "SPMCSR",
        0x57,
        {
          SELFPRGEN: 0,
          SPMEN: 0,
          PGERS: 1,
          PGWRT: 2,
          BLBSET: 3,
          RWWSRE: 4,
          ...(named ? { SIGRD: 5 } : {}),
          RWWSB: 6,
          SPMIE: 7,
        },
        { hardware: 0x7f },
      ),
      ...coreRows({ ramEnd, dataBits: named }),
      row("PRR", 0x64, { PRADC: 0, PRUSART0: 1, PRSPI: 2, PRTIM1: 3, PRTIM0: 5, PRTIM2: 6, PRTWI: 7 }),
      row("PCICR", 0x68, { PCIE0: 0, PCIE1: 1, PCIE2: 2 }),
      row("EICRA", 0x69, { ISC00: 0, ISC01: 1, ISC10: 2, ISC11: 3 }),
      row("PCMSK0", 0x6b, numbered("PCINT")),
      row("PCMSK1", 0x6c, numbered("PCINT", 7, 8)),
      row("PCMSK2", 0x6d, numbered("PCINT", 8, 16)),
      row("ADCSRB", 0x7b, { ADTS0: 0, ADTS1: 1, ADTS2: 2, ACME: 6 }),
      row("ADMUX", 0x7c, { MUX0: 0, MUX1: 1, MUX2: 2, MUX3: 3, ADLAR: 5, REFS0: 6, REFS1: 7 }),
      row("DIDR0", 0x7e, numbered6("ADC", "D")),
      ...usartRows(0, 0xc0, { dataBits: named, spiNames: true }),
    ],
    wide: [...timer1.wide, ...commonWide, usartWide(0, 0xc0)],
    timers: [timer0.timer, timer1.timer, timer2.timer],
    ports: [port("B"), port("C"), port("D")],
    modulators: [],
    vectors,
    ramBytes: member.ramBytes,
    flashBytes: member.flashBytes,
    eepromBytes: member.eepromBytes,
    citation: cite("30, Register Summary"),
  };
}

const twamOfSheet = { TWAM0: 1, TWAM1: 2, TWAM2: 3, TWAM3: 4, TWAM4: 5, TWAM5: 6, TWAM6: 7 };

function numbered6(prefix: string, suffix: string): Record<string, number> {
  return Object.fromEntries(Array.from({ length: 6 }, (_, index) => [`${prefix}${index}${suffix}`, index]));
}
