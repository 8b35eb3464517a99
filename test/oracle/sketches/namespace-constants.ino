namespace mist {
  constexpr uint16_t top = 799;
  constexpr uint8_t pin = 10;
  inline void begin() {
    pinMode(pin, OUTPUT);
    TCCR1A = _BV(COM1B1) | _BV(WGM11) | _BV(WGM10);
    TCCR1B = _BV(WGM13) | _BV(CS10);
    OCR1A = top;
    OCR1B = top / 8;
  }
}
void setup() { mist::begin(); }
void loop() {}
