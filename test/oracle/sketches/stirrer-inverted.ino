void setup() {
  DDRD |= 1 << PD5;
  TCCR0A |= (1 << COM0B1) | (1 << COM0B0);
  OCR0B = 99;
}
void loop() {}
