#include <avr/pgmspace.h>
const uint8_t gamma8[] PROGMEM = { 0, 1, 4, 10, 22, 42, 75, 120, 180, 255 };
void setup() {
  pinMode(6, OUTPUT);
}
void loop() {
  for (uint8_t i = 0; i < sizeof(gamma8); i++) {
    analogWrite(6, pgm_read_byte(&gamma8[i]));
    delay(12);
  }
}
