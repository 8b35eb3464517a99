void setup() {
  pinMode(9, OUTPUT); pinMode(10, OUTPUT);
  TCCR1A = (1 << COM1A0) | (1 << COM1B0);
  TCCR1B = (1 << CS10);
  OCR1A = 20000;
  OCR1B = 40000;
}
void loop() {}
