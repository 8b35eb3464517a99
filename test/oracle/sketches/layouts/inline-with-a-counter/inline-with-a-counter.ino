// An inline function's static is one for all files; a static function's is one for each.
#include "steps.h"
void setup() {
  pinMode(3, OUTPUT);
  pinMode(11, OUTPUT);
  TCCR2A = _BV(COM2A1) | _BV(COM2B1) | _BV(WGM20);
  TCCR2B = _BV(CS22);
  shared();
  apart();
  elsewhere();
  OCR2A = shared();
  OCR2B = apart();
}
void loop() { delay(5); }
