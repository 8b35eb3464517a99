// Constructors run before the core starts, file by file from the last linked to the first; what is known when compiled is there before.
#include "stage.h"
Stage first(1, &base);
uint8_t base = 9;
void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = 999;
  OCR1B = trail;
}
void loop() { delay(5); }
