void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = 0x80;
  TCCR1B = 0x11;
  ICR1H = 0x03;
  ICR1L = 0xE8;
  OCR1AH = 0x01;
  OCR1AL = 0xF4;
}
void loop() {}
