// All 16-bit registers are written in setup before the routine's interrupt is let in.
volatile uint16_t at;
ISR(TIMER1_COMPA_vect) { OCR1A = at += 700; }

void setup() {
  TCCR1A = 0;
  TCCR1B = 0;
  TCNT1 = 0;
  OCR1A = 700;
  OCR1B = 0x1234;
  TIMSK1 = _BV(OCIE1A);
  TCCR1B = _BV(CS10);
}

void loop() {}
