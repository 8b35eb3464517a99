void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = (2 << COM2B0) | (3 << WGM20);
  TCCR2B = (0 << WGM22) | (2 << CS20);
  OCR2B = 0x40;
}
void loop() {}
