ISR(TIMER1_COMPB_vect) { OCR1B += 2000; }
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(CS11);
  TIMSK1 = _BV(OCIE1B);
}
void loop() {
  OCR1A = 0x1234;
//= finding byte-order "The routine ISR(TIMER1_COMPB_vect) may come between the two bytes of OCR1A and leave a high byte of its OCR1B "
//= fix "Hold interrupts off around this write"
  delay(10);
  noInterrupts();
  OCR1A = 0x2345;
  interrupts();
}
