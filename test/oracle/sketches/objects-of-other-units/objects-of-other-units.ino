// Objects, tables and settings that a header only declares and another file defines.
#include "fan.h"

void setup() {
  pinMode(9, OUTPUT);
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
  ICR1 = fan.top();
  fan.level(2);
  OCR1B = settings.lamp + Fan::made + spare;
  delay(10);
}

void loop() {
  fan.level(1);
  delay(10);
}
