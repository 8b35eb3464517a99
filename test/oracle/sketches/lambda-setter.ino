void setup() {
  pinMode(11, OUTPUT);
  auto set = [](uint8_t v) { OCR2A = v; };
  TCCR2A |= _BV(COM2A1);
  set(12);
}
void loop() {}
