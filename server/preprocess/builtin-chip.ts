/** Macros that follow from the chip's and the board's tables: registers, bits, vectors, memory, power, pins. */
import type { Board, Chip } from "../../shared-model/chip.js";

/** What is asked of a board: its pins and their names. */
export type PinNames = Pick<Board, "pins" | "constants" | "interruptPins" | "ledPin"> & { readonly id?: string };

/** Lines for `avr/io.h`. */
export function chipLines(chip: Chip): string {
  const lines: string[] = [];
  const names = new Set([...chip.registers, ...chip.wide].map((register) => register.name));
  // Every chip has these; a table that leaves them out says nothing against it.
  for (const name of ["SREG", "SP", "SPL", "SPH"]) names.add(name);
  lines.push(`= ${[...names].join(" ")}`);
  const bits = new Map<string, number>();
  for (const register of chip.registers) {
    for (const bit of register.bits) if (!names.has(bit.name)) bits.set(bit.name, bit.position);
  }
  for (const { letter } of chip.ports) {
    for (let position = 0; position < 8; position++) {
      const name = `PORT${letter}${position}`;
      // P types' headers write PB0 as PORTB0, the older ones as the number: the same value.
      if (bits.has(name)) bits.set(`P${letter}${position}`, position);
    }
  }
  for (const [name, position] of bits) lines.push(`${name} ${position}`);
  for (const { name, number } of chip.vectors) {
    lines.push(`${name}_vect __isr_${name}`, `${name}_vect_num ${number}`, `__vector_${number} __isr_${name}`);
  }
  if (chip.flashBytes > 64 * 1024) {
    lines.push("= pgm_read_byte_far pgm_read_word_far pgm_read_dword_far pgm_read_float_far pgm_read_ptr_far");
  }
  const last = Math.max(...chip.registers.map((register) => register.address));
  const ramStart = last >= 0x100 ? 0x200 : last >= 0x60 ? 0x100 : 0x60;
  lines.push(
    // The larger chips can be given external memory up to 64 kB, and their header writes the start bare.
    ramStart > 0x100 ? "RAMSTART 0x200" : `RAMSTART (0x${ramStart.toString(16)})`,
    `RAMEND 0x${(ramStart + chip.ramBytes - 1).toString(16).toUpperCase()}`,
    ramStart > 0x100 ? "XRAMEND 0xFFFF" : "XRAMEND RAMEND",
    `FLASHEND 0x${(chip.flashBytes - 1).toString(16).toUpperCase()}`,
    `E2END 0x${(chip.eepromBytes - 1).toString(16).toUpperCase()}`,
    ...sleepLines(bits),
  );
  return lines.join("\n");
}

/** Values of the sleep mode bits SM2..0, which stand at bit 1 of SMCR (DS40002061 section 13.11.1, DS40002211 11.10.1). */
function sleepLines(bits: ReadonlyMap<string, number>): string[] {
  if (bits.get("SM0") !== 1 || !bits.has("SM2")) return [];
  return [
    "SLEEP_MODE_IDLE (0x00<<1)",
    "SLEEP_MODE_ADC (0x01<<1)",
    "SLEEP_MODE_PWR_DOWN (0x02<<1)",
    "SLEEP_MODE_PWR_SAVE (0x03<<1)",
    "SLEEP_MODE_STANDBY (0x06<<1)",
    "SLEEP_MODE_EXT_STANDBY (0x07<<1)",
  ];
}

/** Names of avr/power.h for the bits of the power reduction registers. */
function powerName(bit: string): string | undefined {
  const [, what, number] = /^PR(TIM|USART|ADC|SPI|TWI|USI)(\d*)$/.exec(bit) ?? [];
  if (what === undefined) return undefined;
  return what === "TIM" ? `timer${number}` : `${what.toLowerCase()}${number}`;
}

/** Lines for `avr/power.h`: the writes to the power reduction registers, as the real header has them. */
export function powerLines(chip: Chip): string {
  const lines: string[] = [];
  const masks: { register: string; mask: string }[] = [];
  for (const register of chip.registers) {
    if (!/^PRR\d?$/.test(register.name) || register.bits.length === 0) continue;
    masks.push({ register: register.name, mask: register.bits.map((bit) => `(1<<${bit.name})`).join("|") });
    for (const bit of register.bits) {
      const name = powerName(bit.name);
      if (name === undefined) continue;
      lines.push(`power_${name}_enable() (${register.name} &= (uint8_t)~(1 << ${bit.name}))`);
      lines.push(`power_${name}_disable() (${register.name} |= (uint8_t)(1 << ${bit.name}))`);
    }
  }
  if (masks.length > 0) {
    const all = (operator: string, cast: string) =>
      masks.map(({ register, mask }) => `${register} ${operator} ${cast}(${mask})`).join(", ");
    lines.push(`power_all_enable() (${all("&=", "(uint8_t)~")})`, `power_all_disable() (${all("|=", "(uint8_t)")})`);
  }
  return lines.join("\n");
}

/** Lines for `Arduino.h` that depend on the chip: the choices of analogReference. */
export function coreLines(chip: Chip): string {
  if (/^attiny[248]4/.test(chip.id)) return "DEFAULT 0\nEXTERNAL 1\nINTERNAL1V1 2\nINTERNAL INTERNAL1V1";
  if (/^attiny[248]5/.test(chip.id)) {
    return "DEFAULT 0\nEXTERNAL 4\nINTERNAL1V1 8\nINTERNAL INTERNAL1V1\nINTERNAL2V56 9\nINTERNAL2V56_EXTCAP 13";
  }
  const wide = /^atmega(1280|2560|1284p?|644[ap]*)$/.test(chip.id);
  const internal = wide ? "INTERNAL1V1 2\nINTERNAL2V56 3" : "INTERNAL 3";
  return `${internal}\nDEFAULT 1\nEXTERNAL 0`;
}

/** Of a layout whose pins file is not carried, these stay calls. */
const PIN_QUESTIONS =
  "analogInputToDigitalPin digitalPinHasPWM digitalPinToInterrupt " +
  "digitalPinToPCICR digitalPinToPCICRbit digitalPinToPCMSK digitalPinToPCMSKbit";

const EIGHT_ANALOG_INPUTS = new Set(["nano", "pro", "mini", "fio"]);

const STANDARD = `
NUM_DIGITAL_PINS 20
analogInputToDigitalPin(p) ((p < 6) ? (p) + 14 : -1)
digitalPinHasPWM(p) ((p) == 3 || (p) == 5 || (p) == 6 || (p) == 9 || (p) == 10 || (p) == 11)
digitalPinToPCICR(p) (((p) >= 0 && (p) <= 21) ? (&PCICR) : ((uint8_t *)0))
digitalPinToPCICRbit(p) (((p) <= 7) ? 2 : (((p) <= 13) ? 0 : 1))
digitalPinToPCMSK(p) (((p) <= 7) ? (&PCMSK2) : (((p) <= 13) ? (&PCMSK0) : (((p) <= 21) ? (&PCMSK1) : ((uint8_t *)0))))
digitalPinToPCMSKbit(p) (((p) <= 7) ? (p) : (((p) <= 13) ? ((p) - 8) : ((p) - 14)))
digitalPinToInterrupt(p) ((p) == 2 ? 0 : ((p) == 3 ? 1 : NOT_AN_INTERRUPT))
`;

const MEGA = `
NUM_DIGITAL_PINS 70
NUM_ANALOG_INPUTS 16
analogInputToDigitalPin(p) ((p < 16) ? (p) + 54 : -1)
digitalPinHasPWM(p) (((p) >= 2 && (p) <= 13) || ((p) >= 44 && (p)<= 46))
digitalPinToPCICR(p) ((((p) >= 10) && ((p) <= 13)) || (((p) >= 50) && ((p) <= 53)) || (((p) >= 62) && ((p) <= 69)) ? (&PCICR) : ((uint8_t *)0))
digitalPinToPCICRbit(p) ((((p) >= 10) && ((p) <= 13)) || (((p) >= 50) && ((p) <= 53)) ? 0 : ((((p) >= 62) && ((p) <= 69)) ? 2 : 0))
digitalPinToPCMSK(p) ((((p) >= 10) && ((p) <= 13)) || (((p) >= 50) && ((p) <= 53)) ? (&PCMSK0) : ((((p) >= 62) && ((p) <= 69)) ? (&PCMSK2) : ((uint8_t *)0)))
digitalPinToPCMSKbit(p) ((((p) >= 10) && ((p) <= 13)) ? ((p) - 6) : (((p) == 50) ? 3 : (((p) == 51) ? 2 : (((p) == 52) ? 1 : (((p) == 53) ? 0 : ((((p) >= 62) && ((p) <= 69)) ? ((p) - 62) : 0))))))
digitalPinToInterrupt(p) ((p) == 2 ? 0 : ((p) == 3 ? 1 : ((p) >= 18 && (p) <= 21 ? 23 - (p) : NOT_AN_INTERRUPT)))
SERIAL_PORT_HARDWARE1 Serial1
SERIAL_PORT_HARDWARE2 Serial2
SERIAL_PORT_HARDWARE3 Serial3
SERIAL_PORT_HARDWARE_OPEN Serial1
SERIAL_PORT_HARDWARE_OPEN1 Serial2
SERIAL_PORT_HARDWARE_OPEN2 Serial3
`;

/** Lines for `pins_arduino.h` (variants standard, eightanaloginputs, mega). `A0`, `SS`, `SDA` are no macros there. */
export function pinLines(names: PinNames): string {
  const lines = ["SERIAL_PORT_MONITOR Serial", "SERIAL_PORT_HARDWARE Serial"];
  const { A0, SS } = names.constants;
  if (A0 === 54 && SS === 53) lines.push(...MEGA.trim().split("\n"));
  else if (A0 === 14 && SS === 10) {
    lines.push(...STANDARD.trim().split("\n"));
    lines.push(`NUM_ANALOG_INPUTS ${EIGHT_ANALOG_INPUTS.has(names.id ?? "") ? 8 : 6}`);
  } else lines.push(`NUM_DIGITAL_PINS ${names.pins.length}`, `= ${PIN_QUESTIONS}`);
  for (const [name, number] of Object.entries(names.constants)) {
    if (/^A\d+$/.test(name)) lines.push(`PIN_${name} (${number})`);
    else if (/^(SS|MOSI|MISO|SCK)$/.test(name)) lines.push(`PIN_SPI_${name} (${number})`);
    else if (/^(SDA|SCL)$/.test(name)) lines.push(`PIN_WIRE_${name} (${number})`);
  }
  if (names.ledPin !== undefined) lines.push(`LED_BUILTIN ${names.ledPin}`);
  return lines.join("\n");
}
