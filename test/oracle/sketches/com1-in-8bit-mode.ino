// COM1A0 alone in an 8-bit PWM mode: the pin stays with PORT.
void setup() {
  pinMode(9, OUTPUT);
  digitalWrite(9, HIGH);
  TCCR1A |= _BV(COM1A0);
  OCR1A = 100;
}
void loop() {}
