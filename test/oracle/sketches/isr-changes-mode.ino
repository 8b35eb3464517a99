// The routine switches the beacon between two speeds.
volatile uint8_t ticks = 0;
ISR(TIMER2_OVF_vect) {
  if (++ticks >= 20) {
    ticks = 0;
    TCCR1B ^= _BV(CS10) | _BV(CS11);
  }
}
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM10);
  TCCR1B = _BV(WGM12) | _BV(CS10);
  OCR1A = 60;
  TIMSK2 |= _BV(TOIE2);
}
void loop() {}
