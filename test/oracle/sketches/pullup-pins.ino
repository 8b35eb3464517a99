void setup() {
  pinMode(3, INPUT_PULLUP);
  pinMode(9, INPUT);
  pinMode(10, OUTPUT);
  digitalWrite(10, HIGH);
  TCCR2A |= _BV(COM2B1);
  OCR2B = 100;
}
void loop() {}
