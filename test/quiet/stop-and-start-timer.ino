void start() { TCCR1B |= _BV(CS10); }
void stop() { TCCR1B &= ~_BV(CS10); }
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12);
  ICR1 = 799;
  OCR1A = 400;
}
void loop() {
  start();
  delay(100);
  stop();
  delay(100);
}
