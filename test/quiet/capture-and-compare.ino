// A flow meter's pulses by input capture while a valve's duty is written in loop: both on timer 1, the write guarded.
volatile uint16_t last, width;

ISR(TIMER1_CAPT_vect) {
  uint16_t now = ICR1;
  width = now - last;
  last = now;
}

void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1B1) | _BV(WGM11) | _BV(WGM10);
  TCCR1B = _BV(ICES1) | _BV(WGM12) | _BV(CS11);
  TIMSK1 = _BV(ICIE1);
}

void loop() {
  uint16_t next = analogRead(A0);
  if (next == 0) next = 1;
  noInterrupts();
  OCR1B = next;
  interrupts();
  delay(10);
}
