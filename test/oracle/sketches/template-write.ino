template <typename T> void put(volatile T &reg, T value) { reg = value; }
void setup() {
  pinMode(11, OUTPUT);
  put<uint8_t>(TCCR2A, 0x83);
  put<uint8_t>(TCCR2B, 0x03);
  put<uint8_t>(OCR2A, 0x55);
}
void loop() {}
