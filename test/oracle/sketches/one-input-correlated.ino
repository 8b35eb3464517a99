// Correlated uses of one input: what the branches and the operations leave of it, exactly.
const byte gamma[8] = {0, 1, 3, 9, 27, 81, 243, 255};
const byte steps[4] PROGMEM = {10, 20, 40, 80};
void setup() {
  pinMode(9, OUTPUT); pinMode(3, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11); TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10); ICR1 = 1023;
}
void loop() {
  int x = analogRead(A0);
  if (x > 512) OCR1A = x; else OCR1A = 1023 - x;
  OCR1B = (x + 1023 - x) / 4;
  analogWrite(3, map(x, 0, 1023, 0, 255));
  analogWrite(5, gamma[x >> 7]);
  analogWrite(6, (long) x * x / 4096);
  analogWrite(11, pgm_read_byte(&steps[x >> 8]));
  delay(1);
}
