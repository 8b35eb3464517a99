// Low byte first: the high byte goes in with the next low byte.
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = 0x80;
  TCCR1B = 0x11;
  ICR1L = 0x90;
  ICR1H = 0x01;
  OCR1AL = 0x64;
  OCR1AH = 0x00;
}
void loop() {}
