class Channel {
    uint8_t _pin;
    uint16_t _top;
  public:
    Channel(uint8_t pin, uint16_t top) : _pin(pin), _top(top) {}
    void begin() {
      pinMode(_pin, OUTPUT);
      TCCR1A |= _BV(COM1B1);
      TCCR1A = (TCCR1A & ~(_BV(WGM10) | _BV(WGM11))) | _BV(WGM11);
      TCCR1B = (TCCR1B & ~(_BV(WGM12) | _BV(WGM13))) | _BV(WGM13);
      ICR1 = _top;
    }
    void duty(float part) { OCR1B = (uint16_t)(_top * part); }
};
Channel mist(10, 1000);
void setup() {
  mist.begin();
  mist.duty(0.25);
}
void loop() {}
