// A weak function gives way to another of its name, wherever that stands.
#include "plan.h"
void setup() {
  pinMode(11, OUTPUT);
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2A1) | _BV(COM2B1) | _BV(WGM20);
  TCCR2B = _BV(CS21);
  OCR2A = planned();
  OCR2B = fallback();
}
void loop() { delay(3); }
