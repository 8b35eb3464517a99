#include <avr/io.h>
#include "tables.h"
const Channel channels[2] PROGMEM = {{&DDRB, _BV(3), &OCR2A}, {&DDRD, _BV(3), &OCR2B}};
const uint8_t curve[][3] PROGMEM = {{1, 2, 33}, {4, 5, 66}};
extern const uint8_t clocks[] PROGMEM = {0, _BV(CS21), _BV(CS22)};
