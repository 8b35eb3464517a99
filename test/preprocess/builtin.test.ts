/** What a sketch gets from the chip, the board and the core's headers without reading them. */
import { expect, test } from "vitest";
import { expanded, ON_MEGA, plain, reasons, sketch, tokens } from "./expand-text.js";

test("registers stay as they are and count as defined", () => {
  expect(expanded("TCCR2A = 3; OCR1A = 7999;\n#ifdef OCR1A\nyes;\n#endif\n#if defined(TCCR3A)\nno;\n#endif")).toBe(
    "TCCR2A = 3 ; OCR1A = 7999 ; yes ;",
  );
});

test("bit names are their positions", () => {
  expect(expanded("TCCR2B |= 1 << CS22; TCCR1B = _BV(WGM13) | bit(CS10); PORTB |= 1 << PB5;")).toBe(
    "TCCR2B |= 1 << 2 ; TCCR1B = ( 1 << ( 4 ) ) | ( 1UL << ( 0 ) ) ; PORTB |= 1 << 5 ;",
  );
});

test("the core's macros evaluate their argument more than once, as the real ones do", () => {
  expect(expanded("constrain(analogRead(0) / 4, 26, 245)")).toBe(
    "( ( analogRead ( 0 ) / 4 ) < ( 26 ) ? ( 26 ) : ( ( analogRead ( 0 ) / 4 ) > ( 245 ) ? ( 245 ) : ( analogRead ( 0 ) / 4 ) ) )",
  );
});

test("bitWrite, lowByte, round", () => {
  expect(expanded("bitWrite(PORTB, 5, on);")).toBe(
    "( ( on ) ? ( ( PORTB ) |= ( 1UL << ( 5 ) ) ) : ( ( PORTB ) &= ~ ( 1UL << ( 5 ) ) ) ) ;",
  );
  expect(expanded("lowByte(x) round(y)")).toBe(
    "( ( uint8_t ) ( ( x ) & 0xff ) ) ( ( y ) >= 0 ? ( long ) ( ( y ) + 0.5 ) : ( long ) ( ( y ) - 0.5 ) )",
  );
});

test("the clock is what the build was told", () => {
  expect(expanded("F_CPU / 1000")).toBe("16000000L / 1000");
  expect(tokens(sketch("F_CPU", {}, { fCpu: 8_000_000 }).text)).toBe("8000000L");
  expect(expanded("#if F_CPU == 16000000UL\nyes\n#endif")).toBe("yes");
});

test("chip, board and version can be asked for", () => {
  const question = `#if defined(__AVR_ATmega328P__) && defined(ARDUINO_AVR_UNO) && defined(ARDUINO_ARCH_AVR) && ARDUINO >= 10800
uno
#elif defined(__AVR_ATmega2560__) && defined(ARDUINO_AVR_MEGA2560)
mega
#endif`;
  expect(expanded(question)).toBe("uno");
  expect(tokens(sketch(question, {}, ON_MEGA).text)).toBe("mega");
});

test("pins: numbers that are macros in the pins file, and constants that are not", () => {
  expect(expanded("LED_BUILTIN A0 PIN_A0 SS PIN_SPI_SS NUM_DIGITAL_PINS HIGH LOW OUTPUT INPUT_PULLUP")).toBe(
    "13 A0 ( 14 ) SS ( 10 ) 20 0x1 0x0 0x1 0x2",
  );
  expect(expanded("digitalPinToInterrupt(2)")).toBe(
    "( ( 2 ) == 2 ? 0 : ( ( 2 ) == 3 ? 1 : -1 ) )".replace("-1", "- 1"),
  );
});

test("binary constants of up to eight digits", () => {
  expect(expanded("B0 B00000011 B11111111 B2 B000000011")).toBe("0 3 255 B2 B000000011");
});

test("an interrupt routine becomes a plain function", () => {
  expect(expanded("ISR(TIMER1_COMPA_vect) { ticks++; }")).toBe("void __isr_TIMER1_COMPA ( void ) { ticks ++ ; }");
  expect(expanded("ISR(TIMER2_OVF_vect, ISR_NOBLOCK) {}")).toBe("void __isr_TIMER2_OVF ( void ) { }");
  expect(expanded("SIGNAL(TIMER0_COMPA_vect) {}")).toBe("void __isr_TIMER0_COMPA ( void ) { }");
  expect(expanded("EMPTY_INTERRUPT(ADC_vect)")).toBe("void __isr_ADC ( void ) { }");
  expect(expanded("ISR(INT1_vect, ISR_ALIASOF(INT0_vect));")).toBe("void __isr_INT1 ( void ) { __isr_INT0 ( ) ; } ;");
  expect(expanded("ISR(_VECTOR(11)) {}")).toBe("void __isr_TIMER1_COMPA ( void ) { }");
  expect(expanded("#define TICK TIMER1_OVF_vect\nISR(TICK) {}")).toBe("void __isr_TIMER1_OVF ( void ) { }");
});

test("a vector that the chip does not have is a gap, and the routine a function that nothing calls", () => {
  const result = sketch("ISR(TIMER5_COMPA_vect) {}");
  expect(tokens(result.text)).toBe("void TIMER5_COMPA_vect ( void ) { }");
  expect(reasons(result)).toEqual(["'TIMER5_COMPA_vect' is no interrupt of this chip: nothing calls the routine"]);
  expect(reasons(sketch("ISR(TIMER5_COMPA_vect) {}", {}, ON_MEGA))).toEqual([]);
});

test("whether a vector exists can be asked", () => {
  expect(expanded("#ifdef TIMER1_COMPA_vect\nyes\n#endif\n#ifndef TIMER4_COMPA_vect\nno\n#endif")).toBe("yes no");
});

test("interrupts on and off are calls", () => {
  expect(expanded("sei(); cli(); interrupts(); noInterrupts();")).toBe(
    "__builtin_avr_sei ( ) ; __builtin_avr_cli ( ) ; __builtin_avr_sei ( ) ; __builtin_avr_cli ( ) ;",
  );
});

test("an atomic block is a loop that runs once", () => {
  expect(expanded("#include <util/atomic.h>\nATOMIC_BLOCK(ATOMIC_RESTORESTATE) { x = 1; }")).toBe(
    "for ( unsigned char __sreg_save = __pulsewright_atomic_begin ( 0 ) , __todo = 1 ; __todo ; " +
      "__todo = __pulsewright_atomic_end ( __sreg_save , 0 ) ) { x = 1 ; }",
  );
});

test("power reduction is the write that it is", () => {
  expect(expanded("#include <avr/power.h>\npower_timer2_disable();")).toBe("( PRR |= ( uint8_t ) ( 1 << 6 ) ) ;");
  const onMega = sketch("#include <avr/power.h>\npower_timer4_enable();", {}, ON_MEGA);
  expect(tokens(onMega.text)).toBe("( PRR1 &= ( uint8_t ) ~ ( 1 << 4 ) ) ;");
});

test("flash strings, flash reads and waits stay readable", () => {
  expect(expanded('PROGMEM const byte t[] = {1}; pgm_read_byte(&t[i]); PSTR("a"); _delay_ms(5); wdt_reset();')).toBe(
    'const byte t [ ] = { 1 } ; pgm_read_byte ( & t [ i ] ) ; ( "a" ) ; _delay_ms ( 5 ) ; wdt_reset ( ) ;',
  );
});

test("bit tests go through the register's address", () => {
  expect(expanded("loop_until_bit_is_set(TIFR1, TOV1);")).toBe(
    "do { } while ( ( ! ( ( * ( volatile uint8_t * ) ( ( ( uint16_t ) & ( TIFR1 ) ) ) ) & ( 1 << ( 0 ) ) ) ) ) ;",
  );
});

test("a C++ file gets the core's names only by including it", () => {
  expect(tokens(plain("HIGH TCCR1A\n#ifdef TCCR1A\nno\n#endif\n#include <avr/io.h>\nCS10 HIGH").text)).toBe(
    "HIGH TCCR1A 0 HIGH",
  );
  expect(tokens(plain("HIGH\n#include <Arduino.h>\nHIGH CS10").text)).toBe("HIGH 0x1 0");
  expect(plain("#include <Arduino.h>").units[0]?.core).toBe(true);
  expect(plain("int a;").units[0]?.core).toBe(false);
});

test("a C file is no C++", () => {
  const text = "#ifdef __cplusplus\ncpp\n#else\nc __STDC_VERSION__\n#endif";
  expect(tokens(plain(text, {}, "pump.c").text)).toBe("c 201112L");
  expect(plain(text, {}, "pump.c").units[0]?.c).toBe(true);
  expect(tokens(plain(text).text)).toBe("cpp");
});

test("a sketch may redefine what the core defines", () => {
  expect(expanded("#undef min\nmin(1, 2)\n#define HIGH 7\nHIGH\n#undef F_CPU\n#define F_CPU 8000000UL\nF_CPU")).toBe(
    "min ( 1 , 2 ) 7 8000000UL",
  );
});

test("a header's definition replaces an earlier one, unless it gives way", () => {
  expect(tokens(plain("#define HIGH 7\n#include <Arduino.h>\nHIGH").text)).toBe("0x1");
  expect(tokens(plain("#define cbi(a, b) mine\n#include <wiring_private.h>\ncbi(PORTB, 1)").text)).toBe("mine");
});

test("the text of a constant can be asked for", () => {
  const result = sketch("#define TOP (F_CPU / 1000)\n#define DUTY(x) x\n#define SELF SELF");
  expect(result.macroText("F_CPU")).toBe("16000000L");
  expect(result.macroText("TOP")).toBe("(16000000L / 1000)");
  expect(result.macroText("SELF")).toBe("SELF");
  expect(result.macroText("TCCR1A")).toBe("TCCR1A");
  expect(result.macroText("DUTY")).toBeUndefined();
  expect(result.macroText("nothing")).toBeUndefined();
});

test("one built-in table serves all analyses, and none leaves a mark on it", () => {
  expect(expanded("#undef HIGH\n#define LOW 5\nHIGH LOW")).toBe("HIGH 5");
  expect(expanded("HIGH LOW")).toBe("0x1 0x0");
});

test("headers asked for are told", () => {
  const result = sketch("#include <Servo.h>\n#include <avr/interrupt.h>\n#if 0\n#include <Wire.h>\n#endif");
  expect([...result.builtinHeaders]).toEqual(["Arduino.h", "Servo.h", "avr/interrupt.h"]);
  expect(result.gaps).toEqual([]);
});

test("headers of the core are found whatever the case of their letters, as on file systems that do not tell it", () => {
  expect(expanded("#include <arduino.h>\n#include <AVR/IO.h>\nPB5")).toBe("5");
  expect(reasons(sketch("#include <arduino.h>\n#include <arduinos.h>"))).toEqual([
    "include file 'arduinos.h' was not found",
  ]);
});
