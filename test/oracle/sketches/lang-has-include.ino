// __has_include, values that a macro takes when it is used
#ifdef __has_include
#  if __has_include("local_settings.h")
#    include "local_settings.h"
#  elif __has_include(<avr/io.h>)
#    define START 44
#  endif
#endif
#ifndef START
#define START 22
#endif
#define START_TWICE (START * 2)
#undef START
#define START 11
void setup() {
  DDRD |= 0x60;
  TCCR0A |= 0xA0;
  OCR0A = START_TWICE;
  OCR0B = START;
}
void loop() {}
