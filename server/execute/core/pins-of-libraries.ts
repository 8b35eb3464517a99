/** Pins that SPI and SoftwareSerial take. Source: SPI.cpp, SoftwareSerial.cpp of the packaged core. */
import * as number from "../domain/number.js";
import { bitOf } from "../hardware/alternatives.js";
import { BYTE } from "../hardware/machine.js";
import type { CoreCall, Model } from "./core.js";
import { onEachPin, setBit, setMode, writeLevel } from "./pins.js";

const INPUT = number.constant(0, BYTE);
const OUTPUT = number.constant(1, BYTE);

/**
 * SPI.begin: SS is made an output, high where it was none; SCK and MOSI are outputs whose level is what was sent last (DS40002061
 * section 19.2: master mode drives them).
 */
function beginSpi(call: CoreCall): null {
  const { run, expression } = call;
  const { start, end } = expression;
  onEachPin(call, 0, (state, pin) => {
    const output = bitOf(state.machine.raw(pin.direction), pin.bit);
    if (output !== true) writeLevel(run, state, pin, output === null ? null : true, start, end);
    setMode(run, state, pin, OUTPUT, start, end);
  });
  for (const index of [1, 2]) {
    onEachPin(call, index, (state, pin) => {
      setMode(run, state, pin, OUTPUT, start, end);
      setBit(run, state, pin.output, pin.bit, null, start, end);
    });
  }
  return null;
}

/** setTX and setRX: the sending pin rests high (low where inverted) as an output, the receiving one is pulled up. */
function makeSerial(call: CoreCall): null {
  const { run, expression, values } = call;
  const { start, end } = expression;
  const inverted = values[2] !== undefined && "zeros" in values[2] ? number.truth(values[2]) : null;
  onEachPin(call, 1, (state, pin) => {
    writeLevel(run, state, pin, inverted === null ? null : !inverted, start, end);
    setMode(run, state, pin, OUTPUT, start, end);
  });
  onEachPin(call, 0, (state, pin) => {
    setMode(run, state, pin, INPUT, start, end);
    if (inverted !== true) writeLevel(run, state, pin, inverted === null ? null : true, start, end);
  });
  return null;
}

/** write: bit by bit on the port itself, which leaves a unit that is connected where it is; afterwards the pin is as before. */
function send(call: CoreCall): null {
  const { run, expression } = call;
  const { start, end } = expression;
  onEachPin(call, 0, (state, pin) => {
    run.timing?.losePin(run, state, pin.output, pin.bit);
    const rest = bitOf(state.machine.raw(pin.output), pin.bit);
    for (const level of [rest === null ? null : !rest, rest])
      setBit(run, state, pin.output, pin.bit, level, start, end);
  });
  return null;
}

/** An output whose level the library sets as it likes, with digitalWrite. */
function drivePin(call: CoreCall): null {
  const { run, expression } = call;
  const { start, end } = expression;
  onEachPin(call, 0, (state, pin) => {
    run.timing?.losePin(run, state, pin.output, pin.bit);
    for (const level of [true, false, null]) writeLevel(run, state, pin, level, start, end);
    setMode(run, state, pin, OUTPUT, start, end);
  });
  return null;
}

export const libraryPinModels: Readonly<Record<string, Model>> = {
  "SPI.begin": beginSpi,
  SoftwareSerial: makeSerial,
  "SoftwareSerial.write": send,
  "library drives pin": drivePin,
};
