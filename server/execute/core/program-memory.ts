/** pgm_read_… and the core's tables from pins to ports. Source: avr/pgmspace.h; Arduino.h of the packaged core. */
import { FLOAT, type Type, UINT8, UINT16, UINT32 } from "../../program/types.js";
import * as number from "../domain/number.js";
import { BYTE } from "../hardware/machine.js";
import { readTargets } from "../places.js";
import { isPointer, OFFSET, type Value } from "../value.js";
import type { CoreCall, Model } from "./core.js";
import { pinPlaces } from "./pins.js";

function reads(type: Type): Model {
  return (call) => {
    const pointer = call.values[0];
    if (pointer === undefined || !isPointer(pointer)) return null;
    return readTargets(call.run, call.state, pointer.targets, type);
  };
}

/** PA = 1 … as Arduino.h numbers the ports; 0 is no port. */
const PORT_LETTERS = " ABCDEFGHIJKL";

/** Arduino.h's numbers of the units, from NOT_ON_TIMER on. TIMER2 (6) is of older chips. */
const TIMER_NUMBERS: readonly (string | null)[] = [
  "",
  ...["OC0A", "OC0B", "OC1A", "OC1B", "OC1C", null, "OC2A", "OC2B", "OC3A", "OC3B", "OC3C"],
  ...["OC4A", "OC4B", "OC4C", "OC4D", "OC5A", "OC5B", "OC5C"],
];

function fromPins(
  call: CoreCall,
  fact: (place: ReturnType<ReturnType<typeof pinPlaces>["get"]> & object) => number,
): Value | null {
  const pin = call.values[0];
  if (pin === undefined || !("zeros" in pin) || pin.values === null) return null;
  const places = pinPlaces(call.run);
  const found = pin.values.map((each) => {
    const place = places.get(each);
    return place === undefined ? 0 : fact(place);
  });
  return number.fromValues(found, BYTE);
}

function portRegister(which: "pin" | "direction" | "output"): Model {
  return (call) => {
    const port = call.values[0];
    if (port === undefined || !("zeros" in port) || port.values === null) return null;
    const addresses: number[] = [];
    for (const index of port.values) {
      const fact = call.run.chip.ports.find((candidate) => candidate.letter === PORT_LETTERS[index]);
      if (fact !== undefined) addresses.push(call.run.layout.address(fact[which]));
    }
    if (addresses.length === 0) return null;
    return { targets: [{ kind: "register", address: number.fromValues(addresses, OFFSET) }], mayBeNull: false };
  };
}

export const programMemoryModels: Readonly<Record<string, Model>> = {
  pgm_read_byte: reads(UINT8),
  pgm_read_byte_near: reads(UINT8),
  pgm_read_word: reads(UINT16),
  pgm_read_word_near: reads(UINT16),
  pgm_read_dword: reads(UINT32),
  pgm_read_dword_near: reads(UINT32),
  pgm_read_float: reads(FLOAT),
  pgm_read_float_near: reads(FLOAT),
  pgm_read_ptr: reads({ kind: "pointer", to: UINT8 }),
  pgm_read_ptr_near: reads({ kind: "pointer", to: UINT8 }),
  digitalPinToPort: (call) => fromPins(call, (place) => PORT_LETTERS.indexOf(place.pin.port[1]!)),
  digitalPinToBitMask: (call) => fromPins(call, (place) => 1 << place.bit),
  digitalPinToTimer: (call) => fromPins(call, (place) => TIMER_NUMBERS.indexOf(place.pin.analogWriteUnit ?? "")),
  portOutputRegister: portRegister("output"),
  portInputRegister: portRegister("pin"),
  portModeRegister: portRegister("direction"),
};
