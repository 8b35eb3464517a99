ISR(TIMER1_COMPB_vect) { OCR1B += 2000; }
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(CS11);
  TIMSK1 = _BV(OCIE1B);
}
void loop() {
  const uint8_t oldSREG = SREG;
  cli();
  OCR1A = 0x1234;
  SREG = oldSREG;
  delay(10);
  noInterrupts();
  OCR1A = 0x2345;
  interrupts();
}
