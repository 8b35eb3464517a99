// Gaps and dead travel of values that are worked out of one input.
void setup() {
  pinMode(3, OUTPUT);
  pinMode(11, OUTPUT);
  TCCR2A = _BV(COM2A1) | _BV(COM2B1) | _BV(WGM20);
  TCCR2B = _BV(CS22);
}
void loop() {
  int x = analogRead(A0);
  OCR2A = (x >> 4) * 4;
//=       ^^^^^ hover "64 of the values 0 to 252 occur, not 1, 2, 3 …"
  int y = analogRead(A1);
  OCR2B = (long)y * y / 4096;
//=       ^^^^^ hover "0..62 all give constant low: 63 dead values"
  analogWrite(9, (analogRead(A2) >> 5) * 8);
//= ^^^^^^^^^^^ hover "31 of the values 8 to 248 occur, not 9, 10, 11 …"
  delay(1);
}
