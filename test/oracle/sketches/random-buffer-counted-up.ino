// Every turn: a buffered value, one more, then a mode without buffers.
void setup() {}
void loop() {
  TCCR0A = 1;
  analogWrite(6, 1);
  OCR0A += 1;
  TCCR0A = 130;
}
