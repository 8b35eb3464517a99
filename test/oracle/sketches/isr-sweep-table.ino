const uint8_t wave[8] = { 128, 218, 255, 218, 128, 37, 1, 37 };
volatile uint8_t step = 0;
ISR(TIMER1_COMPA_vect) {
  OCR2B = wave[step++ & 7];
}
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS20);
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 19999;
  TIMSK1 = _BV(OCIE1A);
}
void loop() {}
