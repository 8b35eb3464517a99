void startTone(float hz) {
  float best = 16000000.0 / (8.0 * hz) - 1.0;
  ICR1 = (uint16_t)best;
  OCR1A = (uint16_t)(best * 0.5);
}
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = 0b10000010;
  TCCR1B = 0b00011010;
  startTone(123.45);
}
void loop() {}
