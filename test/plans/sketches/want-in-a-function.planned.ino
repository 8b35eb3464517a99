void fast() {
  // wants D9: 2 kHz
  delay(1000);
}
void setup() { pinMode(9, OUTPUT);
  TCCR1B = 0;
  TCCR1A = 0;
  TCNT1 = 0;
  OCR1A = 3136;
  TCCR1B = _BV(WGM13) | _BV(WGM12);
  ICR1 = 7999;
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B |= _BV(CS10);  // 2 kHz on D9: fast PWM, prescaler 1, TOP 7999
}
void loop() { fast(); }
