// own tone generator: computes prescaler and compare as the core does, toggles the pin by hardware
const uint8_t cs[] = { 1, 2, 3, 4, 5 };
const uint16_t div_[] = { 1, 8, 64, 256, 1024 };
bool ownTone(uint32_t hz) {
  for (uint8_t i = 0; i < 5; i++) {
    uint32_t ocr = F_CPU / hz / 2 / div_[i] - 1;
    if (ocr <= 0xFFFF) {
      TCCR1A = _BV(COM1A0);
      TCCR1B = _BV(WGM12) | cs[i];
      OCR1A = ocr;
      return true;
    }
  }
  return false;
}
void setup() {
  pinMode(9, OUTPUT);
  ownTone(440);
  delay(3);
  ownTone(50);
}
void loop() {}
