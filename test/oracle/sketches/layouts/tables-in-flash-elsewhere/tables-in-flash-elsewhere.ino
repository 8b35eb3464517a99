// Tables in program memory that another file defines, one by a two-dimensional array, one by structs with register pointers.
#include "tables.h"
void setup() {
  for (uint8_t i = 0; i < 2; i++) {
    Channel channel;
    memcpy_P(&channel, &channels[i], sizeof channel);
    *channel.direction |= channel.mask;
    *channel.compare = pgm_read_byte(&curve[i][2]);
  }
  TCCR2A = _BV(COM2A1) | _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = pgm_read_byte(clocks + 1);
}
void loop() { delay(5); }
