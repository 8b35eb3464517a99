// four phases by millis, table in PROGMEM, next phase by pointer
#include <avr/pgmspace.h>
struct Phase { uint8_t duty; uint16_t ms; };
const Phase phases[] PROGMEM = { { 10, 5 }, { 60, 4 }, { 130, 3 }, { 250, 6 } };
const Phase *now = phases;
unsigned long since;
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM20);
  TCCR2B = _BV(CS22);
  OCR2B = pgm_read_byte(&now->duty);
  since = millis();
}
void loop() {
  if (millis() - since >= pgm_read_word(&now->ms)) {
    since = millis();
    if (++now >= phases + sizeof phases / sizeof *phases) now = phases;
    OCR2B = pgm_read_byte(&now->duty);
  }
}
