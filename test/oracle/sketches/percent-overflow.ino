byte percent = 80;
void setup() {
  pinMode(3, OUTPUT);
  byte v = percent * 255 / 100;
  byte w = (unsigned)percent * 255 / 100;
  TCCR2A = 0xA3;
  TCCR2B = 0x02;
  OCR2B = v;
  OCR2A = w;
  pinMode(11, OUTPUT);
}
void loop() {}
