volatile uint8_t n = 0;
ISR(TIMER5_COMPA_vect) {
  n++;
  OCR3B = (n & 1) ? 100 : 200;
}
void setup() {
  pinMode(2, OUTPUT);
  TCCR3A = _BV(COM3B1) | _BV(WGM30);
  TCCR3B = _BV(CS30);
  TCCR5A = 0;
  TCCR5B = _BV(WGM52) | _BV(CS51) | _BV(CS50);
  OCR5A = 2499;
  TIMSK5 = _BV(OCIE5A);
}
void loop() { delay(10); }
