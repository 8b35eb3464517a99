/**
 * Macros of the Arduino core's headers and of the libraries that come with it. Read off arduino-core-avr 1.8.7; the
 * Servo library's are from memory.
 *
 * The port look-ups (`digitalPinToPort`, `portOutputRegister` …) stay calls: their tables are in the core's files,
 * which are not read, and later stages know the board.
 */

const ARDUINO = `
Arduino_h
HIGH 0x1
LOW 0x0
INPUT 0x0
OUTPUT 0x1
INPUT_PULLUP 0x2
PI 3.1415926535897932384626433832795
HALF_PI 1.5707963267948966192313216916398
TWO_PI 6.283185307179586476925286766559
DEG_TO_RAD 0.017453292519943295769236907684886
RAD_TO_DEG 57.295779513082320876798154814105
EULER 2.718281828459045235360287471352
SERIAL 0x0
DISPLAY 0x1
LSBFIRST 0
MSBFIRST 1
CHANGE 1
FALLING 2
RISING 3
min(a,b) ((a)<(b)?(a):(b))
max(a,b) ((a)>(b)?(a):(b))
abs(x) ((x)>0?(x):-(x))
constrain(amt,low,high) ((amt)<(low)?(low):((amt)>(high)?(high):(amt)))
round(x) ((x)>=0?(long)((x)+0.5):(long)((x)-0.5))
radians(deg) ((deg)*DEG_TO_RAD)
degrees(rad) ((rad)*RAD_TO_DEG)
sq(x) ((x)*(x))
interrupts() sei()
noInterrupts() cli()
clockCyclesPerMicrosecond() ( F_CPU / 1000000L )
clockCyclesToMicroseconds(a) ( (a) / clockCyclesPerMicrosecond() )
microsecondsToClockCycles(a) ( (a) * clockCyclesPerMicrosecond() )
lowByte(w) ((uint8_t) ((w) & 0xff))
highByte(w) ((uint8_t) ((w) >> 8))
bitRead(value,bit) (((value) >> (bit)) & 0x01)
bitSet(value,bit) ((value) |= (1UL << (bit)))
bitClear(value,bit) ((value) &= ~(1UL << (bit)))
bitToggle(value,bit) ((value) ^= (1UL << (bit)))
bitWrite(value,bit,bitvalue) ((bitvalue) ? bitSet(value, bit) : bitClear(value, bit))
bit(b) (1UL << (b))
analogInPinToBit(P) (P)
= digitalPinToPort digitalPinToBitMask digitalPinToTimer portOutputRegister portInputRegister portModeRegister
NOT_A_PIN 0
NOT_A_PORT 0
NOT_AN_INTERRUPT -1
NOT_ON_TIMER 0
TIMER0A 1
TIMER0B 2
TIMER1A 3
TIMER1B 4
TIMER1C 5
TIMER2 6
TIMER2A 7
TIMER2B 8
TIMER3A 9
TIMER3B 10
TIMER3C 11
TIMER4A 12
TIMER4B 13
TIMER4C 14
TIMER4D 15
TIMER5A 16
TIMER5B 17
TIMER5C 18
word(...) makeWord(__VA_ARGS__)
`;

const PRINT = `
Print_h
DEC 10
HEX 16
OCT 8
? BIN 2
`;

const FRAMES = [5, 6, 7, 8]
  .flatMap((bits) =>
    ["N", "E", "O"].flatMap((parity, parityCode) =>
      [1, 2].map((stops) => {
        const code = ([0, 0x20, 0x30][parityCode] as number) + (stops === 2 ? 8 : 0) + (bits - 5) * 2;
        return `SERIAL_${bits}${parity}${stops} 0x${code.toString(16).toUpperCase().padStart(2, "0")}`;
      }),
    ),
  )
  .join("\n");

const HARDWARE_SERIAL = `
HardwareSerial_h
? SERIAL_TX_BUFFER_SIZE 64
? SERIAL_RX_BUFFER_SIZE 64
${FRAMES}
`;

/** `B0` … `B11111111`: every way to write up to eight binary digits. */
const BINARY = Array.from({ length: 8 }, (_, width) =>
  Array.from({ length: 2 ** (width + 1) }, (_, value) => `B${value.toString(2).padStart(width + 1, "0")} ${value}`),
)
  .flat()
  .join("\n");

const WIRING_PRIVATE = `
WiringPrivate_h
? cbi(sfr,bit) (_SFR_BYTE(sfr) &= ~_BV(bit))
? sbi(sfr,bit) (_SFR_BYTE(sfr) |= _BV(bit))
EXTERNAL_INT_0 0
EXTERNAL_INT_1 1
EXTERNAL_INT_2 2
EXTERNAL_INT_3 3
EXTERNAL_INT_4 4
EXTERNAL_INT_5 5
EXTERNAL_INT_6 6
EXTERNAL_INT_7 7
`;

const SPI = `
SPI_HAS_TRANSACTION 1
SPI_HAS_NOTUSINGINTERRUPT 1
SPI_ATOMIC_VERSION 1
SPI_CLOCK_DIV4 0x00
SPI_CLOCK_DIV16 0x01
SPI_CLOCK_DIV64 0x02
SPI_CLOCK_DIV128 0x03
SPI_CLOCK_DIV2 0x04
SPI_CLOCK_DIV8 0x05
SPI_CLOCK_DIV32 0x06
SPI_MODE0 0x00
SPI_MODE1 0x04
SPI_MODE2 0x08
SPI_MODE3 0x0C
SPI_MODE_MASK 0x0C
SPI_CLOCK_MASK 0x03
SPI_2XCLOCK_MASK 0x01
`;

const SERVO = `
MIN_PULSE_WIDTH 544
MAX_PULSE_WIDTH 2400
DEFAULT_PULSE_WIDTH 1500
REFRESH_INTERVAL 20000
SERVOS_PER_TIMER 12
INVALID_SERVO 255
`;

const ALL_OF_C = ["stdlib.h", "stdbool.h", "string.h", "math.h"];

/** Header, headers that it includes, macros. `Arduino.h` and `pins_arduino.h` get more from chip and board. */
export const CORE_HEADERS: readonly (readonly [string, readonly string[], string])[] = [
  [
    "Arduino.h",
    [
      ...ALL_OF_C,
      "avr/pgmspace.h",
      "avr/io.h",
      "avr/interrupt.h",
      "binary.h",
      "HardwareSerial.h",
      "WCharacter.h",
      "USBAPI.h",
      "pins_arduino.h",
      "\0nop",
    ],
    ARDUINO,
  ],
  ["binary.h", [], `Binary_h\n${BINARY}`],
  ["pins_arduino.h", ["avr/pgmspace.h"], "Pins_Arduino_h"],
  ["wiring_private.h", ["avr/io.h", "avr/interrupt.h", "stdio.h", "stdarg.h", "Arduino.h"], WIRING_PRIVATE],
  [
    "WString.h",
    ["avr/pgmspace.h", "ctype.h"],
    "String_class_h\nF(string_literal) (reinterpret_cast<const __FlashStringHelper *>(PSTR(string_literal)))",
  ],
  ["Print.h", ["inttypes.h", "stdio.h", "WString.h", "Printable.h"], PRINT],
  ["Printable.h", [], "Printable_h"],
  ["Stream.h", ["inttypes.h", "Print.h"], "Stream_h"],
  ["HardwareSerial.h", ["inttypes.h", "Stream.h"], HARDWARE_SERIAL],
  ["WCharacter.h", ["ctype.h"], "Character_h"],
  ["IPAddress.h", ["stdint.h", "Printable.h", "WString.h"], ""],
  ["Client.h", ["Print.h", "Stream.h", "IPAddress.h"], ""],
  ["Server.h", ["Print.h"], ""],
  ["Udp.h", ["Stream.h", "IPAddress.h"], ""],
  ["USBAPI.h", ["inttypes.h", "avr/pgmspace.h", "avr/interrupt.h", "Arduino.h"], "__USBAPI__\n? USB_EP_SIZE 64"],
  ["new", ["stdlib.h"], ""],
  ["new.h", ["stdlib.h"], ""],
];

/** Libraries known by name: a file of the same name in the sketch or in a library folder comes first. */
export const LIBRARY_HEADERS: readonly (readonly [string, readonly string[], string])[] = [
  ["SPI.h", ["Arduino.h"], SPI],
  ["Wire.h", ["inttypes.h", "Arduino.h"], "BUFFER_LENGTH 32\nWIRE_HAS_END 1"],
  ["EEPROM.h", ["inttypes.h", "avr/eeprom.h", "avr/io.h"], ""],
  ["SoftwareSerial.h", ["inttypes.h", "Stream.h"], "_SS_MAX_RX_BUFF 64"],
  ["HID.h", ["stdint.h", "Arduino.h"], ""],
  ["Servo.h", ["inttypes.h"], SERVO],
];
