// wants D9 and D10: 25 kHz
void setup() {
  pinMode(9, OUTPUT); pinMode(10, OUTPUT);
  TCCR1B = 0;
  TCCR1A = 0;
  TCNT1 = 0;
  OCR1A = 0;
  OCR1B = 0;
  TCCR1B = _BV(WGM13) | _BV(WGM12);
  ICR1 = 639;
  TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(WGM11);
  TCCR1B |= _BV(CS10);  // 25 kHz on D9 and D10: fast PWM, prescaler 1, TOP 639
}
void loop() {
  OCR1A = map(analogRead(A0) / 4, 0, 255, 0, 639);
  OCR1B = map(analogRead(A1) / 4, 0, 255, 0, 639);
}
