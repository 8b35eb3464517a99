// Values worked out of one input each: products that overflow, fractions, a curve with gaps, a clamp by ifs, a draw.
void setup() {
  DDRB = 0xFF;
  DDRD = 0xFF;
  TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = 1023;
  TCCR2A = _BV(COM2A1) | _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS22);
}
int clamped(int v) {
  if (v < 100) v = 100;
  else if (v > 900) v = 900;
  return v;
}
void loop() {
  OCR1A = (unsigned)(analogRead(A0) * 64) >> 6;
  OCR1B = clamped(analogRead(A1)) - 90;
  int k = analogRead(A2);
  OCR2A = (long)k * k / 4096;
  OCR2B = k * 0.249;
  int draw = random(6);
  analogWrite(6, draw * draw * 10);
  analogWrite(5, constrain(analogRead(A3) / 4, 40, 200));
  delay(1);
}
