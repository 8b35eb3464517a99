// A .c file with its header, in the language C: constants there are seen by other files, char constants are int.
#include "ramp.h"
extern const unsigned char RAMP_START;

void setup() {
  DDRB |= _BV(3);
  ramp_begin(RAMP_START);
  ramp_to(old_style(3, 50));
}
void loop() {
  ramp_step();
  delay(4);
}
