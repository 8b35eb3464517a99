// wants D9: 10 kHz
volatile unsigned int seen;
ISR(TIMER1_OVF_vect) { seen = TCNT1; }
void setup() {
  pinMode(9, OUTPUT);
  TIMSK1 |= _BV(TOIE1);
  analogWrite(9, 64);
}
void loop() { delay(5); }
