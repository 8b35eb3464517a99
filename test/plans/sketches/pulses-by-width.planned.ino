// wants D9: pulse 1000..2000 us every 20 ms
void setup() {
  TCCR1B = 0;
  TCCR1A = 0;
  TCNT1 = 0;
  OCR1A = 2009;
  TCCR1B = _BV(WGM13) | _BV(WGM12);
  ICR1 = 39999;
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B |= _BV(CS11);  // 50 Hz on D9: fast PWM, prescaler 8, TOP 39999
  pinMode(9, OUTPUT);
}
void loop() { OCR1A = map(analogRead(A0) / 4, 0, 255, 2009, 3979); delay(20); }
