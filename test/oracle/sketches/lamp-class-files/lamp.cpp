#include "lamp.h"
void Lamp::begin(uint8_t prescaler) {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = prescaler & 7;
}
void Lamp::level(uint8_t value) {
  OCR2B = value;
}
