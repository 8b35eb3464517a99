#include <Arduino.h>
namespace families {
inline void start(uint16_t top) {
  pinMode(9, OUTPUT);
#if defined(__AVR_ATmega328P__) || defined(__AVR_ATmega168__)
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = top;
#elif defined(__AVR_ATmega32U4__)
  TCCR3A = 0;
#endif
}
}
