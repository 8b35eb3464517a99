/** Digital ports of the oracle's machine: direction, output, timer overrides, input levels, pin-change requests. */
import type { ChipMap } from "./chip-map.js";

/** One physical pin. `connected` counts the units that override PORT; `unitLevel` is what they put out. */
export interface Pin {
  readonly name: string;
  readonly port: number;
  readonly bit: number;
  direction: 0 | 1;
  portBit: 0 | 1;
  connected: boolean;
  unitLevel: 0 | 1;
  /** What the pin drives while it is an output. */
  level: 0 | 1;
  /** Level from outside while it is an input; null = floating. */
  input: 0 | 1 | null;
}

export interface PinListener {
  /** The driven level changed (the pin is an output). */
  edge(pin: Pin, cycle: number): void;
  /** Direction, PORT bit or connection changed: whatever was measured on this pin before no longer holds. */
  rewired(pin: Pin, cycle: number): void;
}

export class Ports {
  readonly pins: Pin[] = [];
  private readonly byName = new Map<string, Pin>();
  /** Called with the pin when the level that the CPU would read changes. */
  onRead: ((pin: Pin, level: 0 | 1) => void) | null = null;

  constructor(
    readonly map: ChipMap,
    private readonly listener: PinListener,
  ) {
    map.ports.forEach((port, index) => {
      for (let bit = 0; bit < 8; bit++) {
        const pin: Pin = {
          name: `P${port.letter}${bit}`,
          port: index,
          bit,
          direction: 0,
          portBit: 0,
          connected: false,
          unitLevel: 0,
          level: 0,
          input: null,
        };
        this.pins.push(pin);
        this.byName.set(pin.name, pin);
      }
    });
  }

  named(name: string): Pin {
    const pin = this.byName.get(name);
    if (pin === undefined) throw new Error(`no pin ${name} on ${this.map.mcu}`);
    return pin;
  }

  /** The level that PINx shows; a floating input reads 0, a pull-up 1. */
  read(pin: Pin): 0 | 1 {
    return pin.direction === 1 ? pin.level : (pin.input ?? pin.portBit);
  }

  readPort(port: number): number {
    let value = 0;
    for (let bit = 0; bit < 8; bit++) value |= this.read(this.pins[port * 8 + bit]!) << bit;
    return value;
  }

  private bitsOf(port: number): number {
    return this.map.ports[port]!.bits ?? 8;
  }

  writeDirection(port: number, value: number, cycle: number): void {
    for (let bit = 0; bit < this.bitsOf(port); bit++) {
      const pin = this.pins[port * 8 + bit]!;
      const next = ((value >> bit) & 1) as 0 | 1;
      if (next === pin.direction) continue;
      const before = this.read(pin);
      pin.direction = next;
      this.rewire(pin, before, cycle);
    }
  }

  writeOutput(port: number, value: number, cycle: number): void {
    for (let bit = 0; bit < this.bitsOf(port); bit++) {
      const pin = this.pins[port * 8 + bit]!;
      const next = ((value >> bit) & 1) as 0 | 1;
      if (next === pin.portBit) continue;
      const before = this.read(pin);
      pin.portBit = next;
      this.rewire(pin, before, cycle);
    }
  }

  setInput(name: string, level: 0 | 1 | null): void {
    const pin = this.named(name);
    const before = this.read(pin);
    pin.input = level;
    this.told(pin, before);
  }

  /** The unit on this pin was connected or disconnected, or its level moved. */
  drive(pin: Pin, connected: boolean, level: 0 | 1, cycle: number): void {
    const before = this.read(pin);
    if (connected !== pin.connected) {
      pin.connected = connected;
      pin.unitLevel = level;
      this.rewire(pin, before, cycle);
      return;
    }
    pin.unitLevel = level;
    if (connected) this.settle(pin, before, cycle);
  }

  private rewire(pin: Pin, before: 0 | 1, cycle: number): void {
    this.listener.rewired(pin, cycle);
    this.settle(pin, before, cycle);
  }

  private settle(pin: Pin, before: 0 | 1, cycle: number): void {
    const level = pin.connected ? pin.unitLevel : pin.portBit;
    if (level !== pin.level) {
      pin.level = level;
      if (pin.direction === 1) this.listener.edge(pin, cycle);
    }
    this.told(pin, before);
  }

  private told(pin: Pin, before: 0 | 1): void {
    const after = this.read(pin);
    if (after !== before && this.onRead !== null) this.onRead(pin, after);
  }
}
