ISR(TIMER1_COMPA_vect) {}
void setup() { TCCR1A = 0; TCCR1B = _BV(WGM12) | _BV(CS10); OCR1A = 999; TIMSK1 = _BV(OCIE1A); }
void loop() {}
