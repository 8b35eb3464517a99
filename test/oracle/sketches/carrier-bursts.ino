// 38 kHz carrier switched by COM2B1.
void carrierInit() {
  DDRD |= (1 << 3);
  TCCR2A = (1 << WGM20);
  TCCR2B = (1 << WGM22) | (1 << CS20);
  OCR2A = 209;
  OCR2B = 70;
}
void mark(int us) { TCCR2A |= (1 << COM2B1); delayMicroseconds(us); }
void space(int us) { TCCR2A &= ~(1 << COM2B1); delayMicroseconds(us); }
void setup() { carrierInit(); }
void loop() {
  mark(9000); space(4500);
  for (byte i = 0; i < 4; i++) { mark(560); space(i & 1 ? 1690 : 560); }
  delay(10);
}
