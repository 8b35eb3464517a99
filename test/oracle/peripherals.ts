/**
 * The parts of the chip that a sketch may wait for but that drive no pin here: serial ports (always ready), analog
 * converter (programmable values), EEPROM, SPI and two-wire bus (nobody answers). Kept as simple as the sketches allow.
 */
import type { CPU } from "avr8js";
import type { ChipMap } from "./chip-map.js";

/** What a peripheral may ask of the machine. */
export interface Host {
  readonly cpu: CPU;
  /** Sets or clears an interrupt request. */
  request(vector: number, on: boolean): void;
  /** Runs `action` once `cycles` from now. */
  later(cycles: number, action: () => void): void;
  /** Called when the interrupt is taken. */
  onTaken(vector: number, action: () => void): void;
}

/** Reading number `turn` (from 0) of an analog channel, 0..1023. */
export type AnalogSource = (channel: number, turn: number) => number;

export function attachSerial(host: Host, map: ChipMap): void {
  for (const { ucsrA, udr } of map.uarts) {
    const { data, readHooks, writeHooks } = host.cpu;
    data[ucsrA] = 0x20;
    data[ucsrA + 2] = 0x06;
    writeHooks[ucsrA] = (value) => {
      // TXC is cleared by writing 1; UDRE always reads 1: a byte is gone as soon as it is written.
      data[ucsrA] = 0x20 | (value & 0x03) | (data[ucsrA]! & ~value & 0x40);
      return true;
    };
    writeHooks[udr] = () => {
      data[ucsrA] = data[ucsrA]! | 0x60;
      return true;
    };
    readHooks[udr] = () => 0;
  }
}

const ADCL = 0x78;
const ADCSRA = 0x7a;
const ADCSRB = 0x7b;
const ADMUX = 0x7c;

/** Section 23: a conversion takes 13 ADC clocks; free running starts the next at once. */
export function attachAnalog(host: Host, map: ChipMap, source: AnalogSource): void {
  const { data, writeHooks } = host.cpu;
  const turns = new Map<number, number>();
  const vector = map.vectors.adc;
  const start = (): void => {
    const prescale = Math.max(2, 1 << (data[ADCSRA]! & 7));
    host.later(13 * prescale, () => {
      if ((data[ADCSRA]! & 0x80) === 0) return;
      const mux = (data[ADMUX]! & 0x0f) | (map.mcu === "atmega2560" && (data[ADCSRB]! & 8) !== 0 ? 8 : 0);
      const turn = turns.get(mux) ?? 0;
      turns.set(mux, turn + 1);
      const value = source(mux, turn) & 0x3ff;
      const placed = (data[ADMUX]! & 0x20) !== 0 ? value << 6 : value;
      data[ADCL] = placed & 0xff;
      data[ADCL + 1] = placed >> 8;
      const again = (data[ADCSRA]! & 0x20) !== 0 && (data[ADCSRB]! & 7) === 0;
      data[ADCSRA] = (data[ADCSRA]! | 0x10) & (again ? 0xff : ~0x40);
      if ((data[ADCSRA]! & 0x08) !== 0) host.request(vector, true);
      if (again) start();
    });
  };
  writeHooks[ADCSRA] = (value) => {
    const busy = (data[ADCSRA]! & 0x40) !== 0;
    const flag = data[ADCSRA]! & ~value & 0x10;
    const starts = (value & 0xc0) === 0xc0;
    data[ADCSRA] = (value & 0xaf) | flag | (starts || (busy && (value & 0x80) !== 0) ? 0x40 : 0);
    if (starts && !busy) start();
    host.request(vector, (data[ADCSRA]! & 0x18) === 0x18);
    return true;
  };
  host.onTaken(vector, () => {
    data[ADCSRA] = data[ADCSRA]! & ~0x10;
  });
}

const EECR = 0x3f;
const EEDR = 0x40;
const EEARL = 0x41;

/** Section 8.6: writes finish at once, reads give what was written, 0xFF where nothing was. */
export function attachEeprom(host: Host, map: ChipMap): void {
  const { data, writeHooks } = host.cpu;
  const cells = new Uint8Array(4096).fill(0xff);
  writeHooks[EECR] = (value) => {
    const address = (data[EEARL]! | (data[EEARL + 1]! << 8)) & 0xfff;
    if ((value & 1) !== 0) data[EEDR] = cells[address]!;
    if ((value & 2) !== 0) cells[address] = data[EEDR]!;
    data[EECR] = value & 0x3c;
    host.request(map.vectors.eepromReady, (value & 8) !== 0);
    return true;
  };
}

const SPCR = 0x4c;
const SPSR = 0x4d;
const SPDR = 0x4e;

/** Section 19: a transfer takes 8 bits at the selected rate; nothing answers, so 0xFF comes back. */
export function attachSpi(host: Host, map: ChipMap): void {
  const { data, readHooks, writeHooks } = host.cpu;
  const vector = map.vectors.spi;
  writeHooks[SPDR] = () => {
    data[SPSR] = data[SPSR]! & ~0x80;
    const rate = [4, 16, 64, 128][data[SPCR]! & 3]! / ((data[SPSR]! & 1) !== 0 ? 2 : 1);
    host.later(8 * rate, () => {
      data[SPSR] = data[SPSR]! | 0x80;
      if ((data[SPCR]! & 0x80) !== 0) host.request(vector, true);
    });
    return true;
  };
  writeHooks[SPSR] = (value) => {
    data[SPSR] = (data[SPSR]! & 0x80) | (value & 1);
    return true;
  };
  readHooks[SPDR] = () => {
    data[SPSR] = data[SPSR]! & ~0x80;
    return 0xff;
  };
  host.onTaken(vector, () => {
    data[SPSR] = data[SPSR]! & ~0x80;
  });
}

const TWSR = 0xb9;
const TWCR = 0xbc;

/** Section 22: every step ends after 300 cycles; a start succeeds, an address is not acknowledged. */
export function attachTwoWire(host: Host, map: ChipMap): void {
  const { data, writeHooks } = host.cpu;
  const vector = map.vectors.twi;
  data[TWSR] = 0xf8;
  writeHooks[TWCR] = (value) => {
    const acts = (value & 0x84) === 0x84;
    data[TWCR] = acts ? value & 0x7d & ~0x10 : (value & 0x7d) | (data[TWCR]! & 0x80);
    if (acts && (value & 0x10) === 0) {
      const status = (value & 0x20) !== 0 ? 0x08 : 0x20;
      host.later(300, () => {
        data[TWSR] = (data[TWSR]! & 3) | status;
        data[TWCR] = data[TWCR]! | 0x80;
        host.request(vector, (data[TWCR]! & 1) !== 0);
      });
    }
    host.request(vector, (data[TWCR]! & 0x81) === 0x81);
    return true;
  };
}
