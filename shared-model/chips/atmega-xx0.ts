/**
 * The ATmega 1280/2560 family: what its two members share. A member gives its id, macro and flash size.
 *
 * Source: ATmega640/1280/1281/2560/2561 data sheet (2549): sections 16, 17, 20 (timers), 19 (output compare
 * modulator), 14 (interrupt vectors), 33 (register summary).
 */
import type { Chip, Citation } from "../chip.js";
import { asynchronousClocks, synchronousClocks } from "../timers/clock-tables.js";
import { eightBitTimer } from "../timers/eight-bit.js";
import { sixteenBitTimer } from "../timers/sixteen-bit.js";
import { commonWide, coreRows, port, portRows, serialAndAnalogRows, usartRows, usartWide } from "./peripherals.js";
import { type Bits, numbered, row } from "./register-row.js";

const document = "ATmega640/1280/1281/2560/2561 data sheet, 2549";
const cite = (section: string): Citation => ({ document, section });

export interface MegaXx0 {
  readonly id: string;
  readonly macro: string;
  readonly flashBytes: number;
  /** Chips with more than 128 KB need a third byte for indirect jumps. */
  readonly bigFlash: boolean;
}

/** In table order; numbers from 1, vector 0 is reset (2549 section 14.1, table 14-1). */
const vectors = [
  "INT0",
  "INT1",
  "INT2",
  "INT3",
  "INT4",
  "INT5",
  "INT6",
  "INT7",
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
  "TIMER1_COMPC",
  "TIMER1_OVF",
  "TIMER0_COMPA",
  "TIMER0_COMPB",
  "TIMER0_OVF",
  "SPI_STC",
  "USART0_RX",
  "USART0_UDRE",
  "USART0_TX",
  "ANALOG_COMP",
  "ADC",
  "EE_READY",
  "TIMER3_CAPT",
  "TIMER3_COMPA",
  "TIMER3_COMPB",
  "TIMER3_COMPC",
  "TIMER3_OVF",
  "USART1_RX",
  "USART1_UDRE",
  "USART1_TX",
  "TWI",
  "SPM_READY",
  "TIMER4_CAPT",
  "TIMER4_COMPA",
  "TIMER4_COMPB",
  "TIMER4_COMPC",
  "TIMER4_OVF",
  "TIMER5_CAPT",
  "TIMER5_COMPA",
  "TIMER5_COMPB",
  "TIMER5_COMPC",
  "TIMER5_OVF",
  "USART2_RX",
  "USART2_UDRE",
  "USART2_TX",
  "USART3_RX",
  "USART3_UDRE",
  "USART3_TX",
].map((name, index) => ({ name, number: index + 1 }));

/** The four 16-bit timers: addresses, output pins (section 17.2, table 13-x "Alternate Functions") and clock inputs. */
const sixteenBitPlaces = [
  { number: 1, base: 0x80, ports: ["PB5", "PB6", "PB7"], clockPin: "PD6", power: ["PRR0", "PRTIM1"] },
  { number: 3, base: 0x90, ports: ["PE3", "PE4", "PE5"], clockPin: "PE6", power: ["PRR1", "PRTIM3"] },
  { number: 4, base: 0xa0, ports: ["PH3", "PH4", "PH5"], clockPin: "PH7", power: ["PRR1", "PRTIM4"] },
  { number: 5, base: 0x120, ports: ["PL3", "PL4", "PL5"], clockPin: "PL2", power: ["PRR1", "PRTIM5"] },
] as const;

export function megaXx0(member: MegaXx0): Chip {
  const timer0 = eightBitTimer({
    number: 0,
    base: 0x44,
    interruptMask: 0x6e,
    flags: 0x35,
    ports: { a: "PB7", b: "PG5" },
    clocks: synchronousClocks("PD7"),
    powerReduction: { register: "PRR0", bit: "PRTIM0" },
    prescalerReset: "PSRSYNC",
    citation: cite("16, 8-bit Timer/Counter0 with PWM"),
  });
  const timer2 = eightBitTimer({
    number: 2,
    base: 0xb0,
    interruptMask: 0x70,
    flags: 0x37,
    ports: { a: "PB4", b: "PH6" },
    clocks: asynchronousClocks,
    powerReduction: { register: "PRR0", bit: "PRTIM2" },
    prescalerReset: "PSRASY",
    asynchronous: { register: "ASSR", bit: "AS2" },
    citation: cite("20, 8-bit Timer/Counter2 with PWM and Asynchronous Operation"),
  });
  const wideTimers = sixteenBitPlaces.map((place) =>
    sixteenBitTimer({
      number: place.number,
      base: place.base,
      interruptMask: 0x6e + place.number,
      flags: 0x35 + place.number,
      ports: place.ports,
      clocks: synchronousClocks(place.clockPin),
      powerReduction: { register: place.power[0], bit: place.power[1] },
      namedDataBits: false,
      citation: cite("17, 16-bit Timer/Counter (Timer/Counter 1, 3, 4, and 5)"),
    }),
  );
  const debugBits: Bits = { IDRD: 7, ...numbered("OCDR") };
  const usarts = [
    [0, 0xc0],
    [1, 0xc8],
    [2, 0xd0],
    [3, 0x130],
  ] as const;
  return {
    id: member.id,
    macro: member.macro,
    registers: [
      ...["A", "B", "C", "D", "E", "F"].flatMap((letter, index) => portRows(letter, 0x20 + 3 * index)),
      ...portRows("G", 0x32, 6),
      ...["H", "J", "K", "L"].flatMap((letter, index) => portRows(letter, 0x100 + 3 * index)),
      ...timer0.registers,
      ...timer2.registers,
      ...wideTimers.flatMap((block) => block.registers),
      row("PCIFR", 0x3b, { PCIF0: 0, PCIF1: 1, PCIF2: 2 }, { writable: 0, strobes: 0x07, hardware: 0x07 }),
      row("EIFR", 0x3c, numbered("INTF"), { writable: 0, strobes: 0xff, hardware: 0xff }),
      row("EIMSK", 0x3d, numbered("INT")),
      row("EEARH", 0x42, {}, { writable: 0x0f }),
      ...serialAndAnalogRows({
        dataBits: false,
        twamr: { TWAM0: 1, TWAM1: 2, TWAM2: 3, TWAM3: 4, TWAM4: 5, TWAM5: 6, TWAM6: 7 },
      }),
      row("MONDR", 0x51, debugBits, { writable: 0xff, hardware: 0xff }),
      row("OCDR", 0x51, debugBits, { writable: 0xff, hardware: 0xff }),
      row("MCUSR", 0x54, { PORF: 0, EXTRF: 1, BORF: 2, WDRF: 3, JTRF: 4 }, { hardware: 0x1f }),
      row("MCUCR", 0x55, { IVCE: 0, IVSEL: 1, PUD: 4, JTD: 7 }, { hardware: 0x01 }),
      row(
        "SPMCSR",
        0x57,
        { SPMEN: 0, PGERS: 1, PGWRT: 2, BLBSET: 3, RWWSRE: 4, SIGRD: 5, RWWSB: 6, SPMIE: 7 },
        { hardware: 0x7f },
      ),
      row("RAMPZ", 0x5b, { RAMPZ0: 0 }, { writable: member.bigFlash ? 0x03 : 0x01 }),
      row("EIND", 0x5c, { EIND0: 0 }, { writable: member.bigFlash ? 0x01 : 0 }),
      ...coreRows({ ramEnd: 0x21ff, dataBits: false }),
      row("PRR0", 0x64, { PRADC: 0, PRUSART0: 1, PRSPI: 2, PRTIM1: 3, PRTIM0: 5, PRTIM2: 6, PRTWI: 7 }),
      row("PRR1", 0x65, { PRUSART1: 0, PRUSART2: 1, PRUSART3: 2, PRTIM3: 3, PRTIM4: 4, PRTIM5: 5 }),
      row("PCICR", 0x68, { PCIE0: 0, PCIE1: 1, PCIE2: 2 }),
      row("EICRA", 0x69, { ISC00: 0, ISC01: 1, ISC10: 2, ISC11: 3, ISC20: 4, ISC21: 5, ISC30: 6, ISC31: 7 }),
      row("EICRB", 0x6a, { ISC40: 0, ISC41: 1, ISC50: 2, ISC51: 3, ISC60: 4, ISC61: 5, ISC70: 6, ISC71: 7 }),
      row("PCMSK0", 0x6b, numbered("PCINT")),
      row("PCMSK1", 0x6c, numbered("PCINT", 8, 8)),
      row("PCMSK2", 0x6d, numbered("PCINT", 8, 16)),
      row("XMCRA", 0x74, { SRW00: 0, SRW01: 1, SRW10: 2, SRW11: 3, SRL0: 4, SRL1: 5, SRL2: 6, SRE: 7 }),
      row("XMCRB", 0x75, { XMM0: 0, XMM1: 1, XMM2: 2, XMBK: 7 }),
      row("ADCSRB", 0x7b, { ADTS0: 0, ADTS1: 1, ADTS2: 2, MUX5: 3, ACME: 6 }),
      row("ADMUX", 0x7c, { MUX0: 0, MUX1: 1, MUX2: 2, MUX3: 3, MUX4: 4, ADLAR: 5, REFS0: 6, REFS1: 7 }),
      row("DIDR2", 0x7d, digitalInputBits(8)),
      row("DIDR0", 0x7e, digitalInputBits(0)),
      ...usarts.flatMap(([n, base]) => usartRows(n, base, { dataBits: false, spiNames: false })),
    ],
    wide: [
      ...wideTimers.flatMap((block) => block.wide),
      ...commonWide,
      ...usarts.map(([n, base]) => usartWide(n, base)),
    ],
    timers: [timer0.timer, timer2.timer, ...wideTimers.map((block) => block.timer)].sort((a, b) => a.number - b.number),
    ports: ["A", "B", "C", "D", "E", "F", "G", "H", "J", "K", "L"].map(port),
    modulators: [{ port: "PB7", units: ["OC0A", "OC1C"], citation: cite("19, Output Compare Modulator (OCM1C0A)") }],
    vectors,
    ramBytes: 8192,
    flashBytes: member.flashBytes,
    eepromBytes: 4096,
    citation: cite("33, Register Summary"),
  };
}

function digitalInputBits(from: number): Bits {
  return Object.fromEntries(Array.from({ length: 8 }, (_, index) => [`ADC${from + index}D`, index]));
}
