void setup() {
  pinMode(3, OUTPUT);
  TCCR3A = (1 << COM3C1) | (1 << COM3C0) | (1 << WGM30);
  TCCR3B = (1 << WGM32) | (1 << CS30);
  OCR3C = 77;
}
void loop() {}
