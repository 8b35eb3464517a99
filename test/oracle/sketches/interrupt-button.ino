volatile byte stage = 0;
void pressed() {
  stage = (stage + 1) & 3;
  OCR1A = stage * 80;
}
void setup() {
  pinMode(2, INPUT_PULLUP);
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM10);
  TCCR1B = _BV(WGM12) | _BV(CS10);
  attachInterrupt(digitalPinToInterrupt(2), pressed, FALLING);
  if (digitalRead(2)) delay(1);
}
void loop() { delay(10); }
