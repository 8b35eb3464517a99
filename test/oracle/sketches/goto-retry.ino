void setup() {
  byte tries = 0;
again:
  OCR2B = 10 + tries * 20;
  delay(5);
  if (++tries < 3) goto again;
  pinMode(3, OUTPUT);
  TCCR2A |= _BV(COM2B1);
}
void loop() {}
