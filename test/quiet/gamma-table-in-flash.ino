#include <avr/pgmspace.h>
const uint8_t PROGMEM gamma8[] = {0, 0, 1, 2, 4, 7, 11, 17, 25, 35, 48, 64, 84, 108, 137, 171, 211, 255};
const byte STEPS = sizeof(gamma8) / sizeof(gamma8[0]);

void setup() { pinMode(9, OUTPUT); }

void loop() {
  for (byte i = 0; i < STEPS; i++) {
    analogWrite(9, pgm_read_byte(&gamma8[i]));
    delay(40);
  }
  for (byte i = STEPS; i-- > 0;) {
    analogWrite(9, pgm_read_byte(&gamma8[i]));
    delay(40);
  }
}
