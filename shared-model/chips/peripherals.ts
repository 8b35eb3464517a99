/**
 * Register rows of the blocks around the timers, shared by the ATmega x8 and ATmega xx0 families: ports, serial
 * units, converter, EEPROM, watchdog, clock and power. Addresses and bits are checked against avr-libc's headers.
 *
 * Sources: "Register Summary" of the ATmega48A/PA/88A/PA/168A/PA/328/P data sheet (DS40002061, section 30) and of the
 * ATmega640/1280/1281/2560/2561 data sheet (2549, section 33), and the "Register Description" of each block.
 */
import type { PortFact, RegisterFact, WideRegisterFact } from "../chip.js";
import { type Bits, numbered, row, wide } from "./register-row.js";

/** PINx, DDRx, PORTx of one port; `base` is PINx. Writing 1 to a PINx bit toggles the PORTx bit (section 14.2.2 / 13.2.2). */
export function portRows(letter: string, base: number, count = 8): RegisterFact[] {
  const mask = (1 << count) - 1;
  return [
    row(`PIN${letter}`, base, numbered(`PIN${letter}`, count), { writable: 0, strobes: mask, hardware: mask }),
    row(`DDR${letter}`, base + 1, numbered(`DD${letter}`, count)),
    row(`PORT${letter}`, base + 2, { ...numbered(`PORT${letter}`, count), ...numbered(`P${letter}`, count) }),
  ];
}

export function port(letter: string): PortFact {
  return { letter, pin: `PIN${letter}`, direction: `DDR${letter}`, output: `PORT${letter}` };
}

/**
 * Bits named alike for every port (`PORT3`, `DD3`, `PIN3`), which avr-libc defines beside the registers' own bits.
 */
export const portNeutralBits: Bits = { ...numbered("PORT"), ...numbered("DD"), ...numbered("PIN") };

/** One serial unit; `synchronousNames` = the names that UCSZn1:0 have in synchronous mode. */
export function usartRows(n: number, base: number, options: { dataBits: boolean; spiNames: boolean }): RegisterFact[] {
  return [
    row(
      `UCSR${n}A`,
      base,
      {
        [`MPCM${n}`]: 0,
        [`U2X${n}`]: 1,
        [`UPE${n}`]: 2,
        [`DOR${n}`]: 3,
        [`FE${n}`]: 4,
        [`UDRE${n}`]: 5,
        [`TXC${n}`]: 6,
        [`RXC${n}`]: 7,
      },
      { writable: 0x03, strobes: 0x40, hardware: 0xfc, reset: 0x20 },
    ),
    row(
      `UCSR${n}B`,
      base + 1,
      {
        [`TXB8${n}`]: 0,
        [`RXB8${n}`]: 1,
        [`UCSZ${n}2`]: 2,
        [`TXEN${n}`]: 3,
        [`RXEN${n}`]: 4,
        [`UDRIE${n}`]: 5,
        [`TXCIE${n}`]: 6,
        [`RXCIE${n}`]: 7,
      },
      { writable: 0xfd, hardware: 0x02 },
    ),
    row(
      `UCSR${n}C`,
      base + 2,
      {
        [`UCPOL${n}`]: 0,
        [`UCSZ${n}0`]: 1,
        ...(options.spiNames ? { [`UCPHA${n}`]: 1, [`UDORD${n}`]: 2 } : {}),
        [`UCSZ${n}1`]: 2,
        [`USBS${n}`]: 3,
        [`UPM${n}0`]: 4,
        [`UPM${n}1`]: 5,
        [`UMSEL${n}0`]: 6,
        [`UMSEL${n}1`]: 7,
      },
      { reset: 0x06 },
    ),
    row(`UBRR${n}L`, base + 4, options.dataBits ? numbered(`UBRR${n}_`) : {}),
    row(`UBRR${n}H`, base + 5, options.dataBits ? numbered(`UBRR${n}_`, 4, 8) : {}, { writable: 0x0f }),
    row(`UDR${n}`, base + 6, options.dataBits ? numbered(`UDR${n}_`) : {}, { writable: 0xff, hardware: 0xff }),
  ];
}

export function usartWide(n: number, base: number): WideRegisterFact {
  return wide(`UBRR${n}`, base + 4);
}

/** SPI, TWI, EEPROM, converter, comparator: the same in both families but for the names of plain data bits. */
export function serialAndAnalogRows(options: { dataBits: boolean; twamr: Bits }): RegisterFact[] {
  const data = (prefix: string, count = 8, from = 0): Bits => (options.dataBits ? numbered(prefix, count, from) : {});
  return [
    row("GPIOR0", 0x3e, data("GPIOR0")),
    row("EECR", 0x3f, { EERE: 0, EEPE: 1, EEMPE: 2, EERIE: 3, EEPM0: 4, EEPM1: 5 }, { hardware: 0x06 }),
    row("EEDR", 0x40, data("EEDR"), { writable: 0xff, hardware: 0xff }),
    row("EEARL", 0x41, data("EEAR")),
    row("GTCCR", 0x43, { PSRSYNC: 0, PSRASY: 1, TSM: 7 }, { writable: 0x80, strobes: 0x03, hardware: 0x03 }),
    row("GPIOR1", 0x4a, data("GPIOR1")),
    row("GPIOR2", 0x4b, data("GPIOR2")),
    row("SPCR", 0x4c, { SPR0: 0, SPR1: 1, CPHA: 2, CPOL: 3, MSTR: 4, DORD: 5, SPE: 6, SPIE: 7 }, { hardware: 0x10 }),
    row("SPSR", 0x4d, { SPI2X: 0, WCOL: 6, SPIF: 7 }, { writable: 0x01, hardware: 0xc0 }),
    row("SPDR", 0x4e, data("SPDR"), { writable: 0xff, hardware: 0xff }),
    row(
      "ACSR",
      0x50,
      { ACIS0: 0, ACIS1: 1, ACIC: 2, ACIE: 3, ACI: 4, ACO: 5, ACBG: 6, ACD: 7 },
      { writable: 0xcf, strobes: 0x10, hardware: 0x30 },
    ),
    row("SMCR", 0x53, { SE: 0, SM0: 1, SM1: 2, SM2: 3 }),
    row("ADCL", 0x78, data("ADCL"), { writable: 0, hardware: 0xff }),
    row("ADCH", 0x79, data("ADCH"), { writable: 0, hardware: 0xff }),
    row(
      "ADCSRA",
      0x7a,
      { ADPS0: 0, ADPS1: 1, ADPS2: 2, ADIE: 3, ADIF: 4, ADATE: 5, ADSC: 6, ADEN: 7 },
      { writable: 0xaf, strobes: 0x50, hardware: 0x50 },
    ),
    row("DIDR1", 0x7f, { AIN0D: 0, AIN1D: 1 }),
    row("TWBR", 0xb8, data("TWBR")),
    row(
      "TWSR",
      0xb9,
      { TWPS0: 0, TWPS1: 1, TWS3: 3, TWS4: 4, TWS5: 5, TWS6: 6, TWS7: 7 },
      { writable: 0x03, hardware: 0xf8, reset: 0xf8 },
    ),
    row("TWAR", 0xba, { TWGCE: 0, TWA0: 1, TWA1: 2, TWA2: 3, TWA3: 4, TWA4: 5, TWA5: 6, TWA6: 7 }, { reset: 0xfe }),
    row("TWDR", 0xbb, data("TWD"), { writable: 0xff, hardware: 0xff, reset: 0xff }),
    row(
      "TWCR",
      0xbc,
      { TWIE: 0, TWEN: 2, TWWC: 3, TWSTO: 4, TWSTA: 5, TWEA: 6, TWINT: 7 },
      { writable: 0x75, strobes: 0x80, hardware: 0x98 },
    ),
    row("TWAMR", 0xbd, options.twamr, { writable: 0xfe }),
  ];
}

/** Processor, clock, watchdog, timer 2's crystal. `ramEnd` is the stack pointer's value after reset. */
export function coreRows(options: { ramEnd: number; dataBits: boolean }): RegisterFact[] {
  return [
    row("SPL", 0x5d, {}, { reset: options.ramEnd & 0xff, hardware: 0xff }),
    row("SPH", 0x5e, {}, { reset: options.ramEnd >> 8, hardware: 0xff }),
    row(
      "SREG",
      0x5f,
      { SREG_C: 0, SREG_Z: 1, SREG_N: 2, SREG_V: 3, SREG_S: 4, SREG_H: 5, SREG_T: 6, SREG_I: 7 },
      { hardware: 0x7f },
    ),
    row(
      "WDTCSR",
      0x60,
      { WDP0: 0, WDP1: 1, WDP2: 2, WDE: 3, WDCE: 4, WDP3: 5, WDIE: 6, WDIF: 7 },
      { writable: 0x6f, strobes: 0x90, hardware: 0xd0 },
    ),
    // CLKPS keeps what is written only within four cycles of a write of CLKPCE alone; after reset it holds 0, or 3
    // where the CKDIV8 fuse is programmed (boards with a boot loader leave it unprogrammed).
    row("CLKPR", 0x61, { CLKPS0: 0, CLKPS1: 1, CLKPS2: 2, CLKPS3: 3, CLKPCE: 7 }, { writable: 0x0f, strobes: 0x80 }),
    row("OSCCAL", 0x66, options.dataBits ? numbered("CAL") : {}, { writable: 0xff, hardware: 0xff }),
    row(
      "ASSR",
      0xb6,
      { TCR2BUB: 0, TCR2AUB: 1, OCR2BUB: 2, OCR2AUB: 3, TCN2UB: 4, AS2: 5, EXCLK: 6 },
      { writable: 0x60, hardware: 0x1f },
    ),
  ];
}

export const commonWide: readonly WideRegisterFact[] = [
  wide("EEAR", 0x41),
  wide("SP", 0x5d, { low: "SPL", high: "SPH" }),
  wide("ADC", 0x78),
  wide("ADCW", 0x78, { low: "ADCL", high: "ADCH" }),
];
