#include <avr/eeprom.h>
void setup() {
  pinMode(11, OUTPUT);
  byte saved = eeprom_read_byte((uint8_t *)4);
  if (saved > 200) saved = 90;
  analogWrite(11, saved);
}
void loop() {}
