void setup() {
  pinMode(9, OUTPUT); pinMode(10, OUTPUT);
  TCCR1A = (1 << COM1A0) | (1 << COM1B0);
  TCCR1B = (1 << WGM13) | (1 << WGM12) | (1 << CS10);
  ICR1 = 4999;
  OCR1A = 0;
  OCR1B = 2500;
}
void loop() {}
