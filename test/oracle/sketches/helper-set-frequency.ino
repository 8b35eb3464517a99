// A helper that takes the frequency.
void setPumpFrequency(unsigned int hz) {
  ICR1 = F_CPU / (2UL * 8 * hz);
}
void setPumpDuty(unsigned char percent) {
  OCR1A = (unsigned long)ICR1 * percent / 100;
}
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1);
  TCCR1B = _BV(WGM13) | _BV(CS11);
  setPumpFrequency(500);
  setPumpDuty(35);
}
void loop() {}
