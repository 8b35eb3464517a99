// Compare values of 16 bits shared with the overflow routine: every access in loop is guarded, the flag restored.
ISR(TIMER1_OVF_vect) { OCR1B = OCR1A / 2; }

static void setA(uint16_t v) {
  uint8_t s = SREG;
  cli();
  OCR1A = v;
  SREG = s;
}

void setup() {
  pinMode(9, OUTPUT);
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS11);
  ICR1 = 2000;
  TIMSK1 = _BV(TOIE1);
}

void loop() {
  setA(map(analogRead(A0), 0, 1023, 0, 2000));
  delay(5);
}
