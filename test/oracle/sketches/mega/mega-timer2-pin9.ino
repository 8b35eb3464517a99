void setup() {
  pinMode(9, OUTPUT);
  TCCR2A = 0x21;
  TCCR2B = 0x0B;
  OCR2A = 0xF8;
  OCR2B = 0x30;
}
void loop() {}
