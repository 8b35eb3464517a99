// What a library that is not at hand does to the timer is not known, nor that any bit of what follows is lost.
#include "MistMaker.h"
MistMaker mist(7);

void setup() {
  mist.begin();
  pinMode(9, OUTPUT);
  OCR1A = 1500;
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
  ICR1 = 39999;
}

void loop() {}
