// Routines in a .cpp and in a .c; what they leave is read here.
#include "beat.h"
void setup() {
  pinMode(3, OUTPUT);
  pinMode(11, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS22);
  beat_start(249);
  extern void second_start(void);
  second_start();
}
void loop() {
  if (beats & 4) OCR2B = 80;
  else OCR2B = 20;
}
