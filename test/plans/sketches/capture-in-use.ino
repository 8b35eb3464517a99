// wants D9: 10 kHz
volatile unsigned t;
ISR(TIMER1_CAPT_vect) { t = ICR1; }
ISR(TIMER1_OVF_vect) { t = TCNT1; }
void setup() {
  pinMode(9, OUTPUT);
  TCCR1B |= _BV(ICNC1);
  TIMSK1 |= _BV(TOIE1);
  analogWrite(9, 64);
}
void loop() { delay(5); }
