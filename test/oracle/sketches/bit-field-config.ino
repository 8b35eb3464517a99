struct Bits { uint8_t cs : 3; uint8_t wgm2 : 1; uint8_t rest : 4; } bits = { 2, 1, 0 };
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | 3;
  TCCR2B = bits.cs | bits.wgm2 << 3;
  OCR2A = 79;
  OCR2B = 39;
}
void loop() {}
