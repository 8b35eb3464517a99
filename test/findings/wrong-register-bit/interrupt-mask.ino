ISR(TIMER1_COMPA_vect) {}
void setup() { TCCR1A = 0; TCCR1B = _BV(WGM12) | _BV(CS10) | _BV(OCIE1A); OCR1A = 999; TIMSK1 = _BV(OCIE1A); }
//=                                                              ^^^^^^ finding wrong-register-bit "OCIE1A is a bit of TIMSK1; in TCCR1B bit 1 is CS11 (now prescaler 64)"
//= fix "Write OCIE1A to TIMSK1"
void loop() {}
