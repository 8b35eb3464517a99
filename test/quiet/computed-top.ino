constexpr uint32_t wantedHz = 25000;
constexpr uint16_t top = F_CPU / wantedHz - 1;
void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1B1) | _BV(WGM11) | _BV(WGM10);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  OCR1A = top;
  OCR1B = top / 3;
}
void loop() {}
