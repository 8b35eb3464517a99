#include <Arduino.h>
#include "fan.h"
#include "../pins.h"

void fanBegin(int pin) {
  pinMode(pin, OUTPUT);
  TCCR1A = _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = TOP_OF_FAN;
}
void fanSpeed(int percent) { OCR1B = curve(percent); }
