// The constructor runs before the core's init, which zeroes TCCR1B and ORs the rest.
class Dimmer {
  public:
    Dimmer() {
      TCCR1A = _BV(COM1A1) | _BV(WGM11);
      TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
      ICR1 = 999;
      OCR1A = 250;
      DDRB |= _BV(PB1);
    }
};
Dimmer dimmer;
void setup() {}
void loop() {}
