volatile uint16_t wanted = 100;
ISR(TIMER1_OVF_vect) { OCR1B = wanted; }
void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = 1023;
  TIMSK1 = _BV(TOIE1);
}
void loop() {
  uint16_t value = analogRead(A2);
  noInterrupts();
  wanted = value < 1 ? 1 : value;
  interrupts();
}
