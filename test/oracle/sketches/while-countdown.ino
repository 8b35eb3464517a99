void setup() {
  pinMode(3, OUTPUT);
  int n = 100;
  while (n > 30) n -= 7;
  TCCR2A = 0x21; TCCR2B = 0x0A;
  OCR2A = 150;
  OCR2B = n;
}
void loop() {}
