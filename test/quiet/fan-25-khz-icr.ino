// Greenhouse fan on a 4-wire plug.
const byte fan = 9;
void setup() {
  pinMode(fan, OUTPUT);
  TCCR1A = 0;
  TCCR1B = 0;
  TCNT1 = 0;
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = 320;
  OCR1A = 0;
}
void loop() {
  OCR1A = (uint16_t)((long)analogRead(A0) * 320 / 1023);
  delay(100);
}
