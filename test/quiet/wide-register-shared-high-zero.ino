// The routine's values and those of loop are all below 256: the byte in the shared buffer is 0 in any case.
ISR(TIMER1_OVF_vect) { OCR1B = 120; }

void setup() {
  pinMode(9, OUTPUT);
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(WGM10);
  TCCR1B = _BV(CS11);
  TIMSK1 = _BV(TOIE1);
}

void loop() {
  OCR1A = 40;
  delay(100);
  OCR1A = 200;
  delay(100);
}
