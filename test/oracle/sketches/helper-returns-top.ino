unsigned int topFor(float hz) {
  return (unsigned int)(16000000.0 / (2.0 * 64.0 * hz) + 0.5);
}
void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = (1 << COM1B1);
  TCCR1B = (1 << WGM13) | (1 << CS11) | (1 << CS10);
  ICR1 = topFor(50.0);
  OCR1B = topFor(50.0) / 20;
}
void loop() {}
