boolean mode = true;
void fast() { TCCR2A = 0x23; TCCR2B = 0x09; OCR2A = 159; OCR2B = 40; }
void slow() { TCCR2A = 0x21; TCCR2B = 0x0C; OCR2A = 200; OCR2B = 50; }
void setup() { DDRD |= 8; }
void loop() {
  if (mode) fast(); else slow();
  mode = !mode;
  delay(30);
}
