// Timer 2 counts, its overflow switches two pins by hand.
volatile byte step;
ISR(TIMER2_OVF_vect) {
  step = (step + 1) & 3;
  PORTD = (PORTD & 0x3F) | (step << 6);
}
void setup() {
  DDRD |= 0xC0;
  TCCR2A = 0;
  TCCR2B = _BV(CS21);
  TIMSK2 |= _BV(TOIE2);
}
void loop() {}
