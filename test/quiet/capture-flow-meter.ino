volatile uint16_t last, period;
ISR(TIMER1_CAPT_vect) {
  uint16_t now = ICR1;
  period = now - last;
  last = now;
}
void setup() {
  Serial.begin(115200);
  TCCR1A = 0;
  TCCR1B = _BV(ICNC1) | _BV(ICES1) | _BV(CS11);
  TIMSK1 = _BV(ICIE1);
}
void loop() { Serial.println(period); delay(200); }
