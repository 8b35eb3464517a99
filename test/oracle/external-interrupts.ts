/** INTn by EICRA/EICRB and EIMSK, pin changes by PCICR and PCMSKn (section 13). Level-triggered ones are not carried. */
import type { ChipMap } from "./chip-map.js";
import type { Host } from "./peripherals.js";
import type { Ports } from "./ports.js";

export function attachExternalInterrupts(host: Host, map: ChipMap, ports: Ports): void {
  const { cpu } = host;
  const { data } = cpu;
  const refresh = (): void => {
    map.external.forEach(({ vector }, index) => {
      host.request(vector, (data[0x3c]! & data[0x3d]! & (1 << index)) !== 0);
    });
    map.pinChange.forEach(({ vector }, index) => {
      host.request(vector, (data[0x3b]! & data[0x68]! & (1 << index)) !== 0);
    });
  };
  const flagRegister = (register: number): void => {
    cpu.writeHooks[register] = (value, _old, _address, mask) => {
      data[register] = data[register]! & ~(value & mask);
      refresh();
      return true;
    };
  };
  flagRegister(0x3c);
  flagRegister(0x3b);
  cpu.writeHooks[0x3d] = (value) => {
    data[0x3d] = value;
    refresh();
    return true;
  };
  cpu.writeHooks[0x68] = (value) => {
    data[0x68] = value & 7;
    refresh();
    return true;
  };
  map.external.forEach(({ vector }, index) => {
    host.onTaken(vector, () => {
      data[0x3c] = data[0x3c]! & ~(1 << index);
    });
  });
  map.pinChange.forEach(({ vector }, index) => {
    host.onTaken(vector, () => {
      data[0x3b] = data[0x3b]! & ~(1 << index);
    });
  });
  ports.onRead = (pin, level) => {
    const index = map.external.findIndex(({ port }) => port === pin.name);
    if (index >= 0) {
      const sense = (data[0x69 + (index >> 2)]! >> (2 * (index & 3))) & 3;
      if (sense === 1 || sense === (level === 1 ? 3 : 2)) data[0x3c] = data[0x3c]! | (1 << index);
    }
    map.pinChange.forEach(({ ports }, group) => {
      const bit = ports.indexOf(pin.name);
      if (bit >= 0 && (data[0x6b + group]! & (1 << bit)) !== 0) data[0x3b] = data[0x3b]! | (1 << group);
    });
    refresh();
  };
}
