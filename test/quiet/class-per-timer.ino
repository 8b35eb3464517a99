// A class around each 16-bit output: one for pump and one for fan.
class Dimmer {
 public:
  Dimmer(volatile uint16_t &compare, byte pin) : compare_(compare), pin_(pin) {}
  void begin() { pinMode(pin_, OUTPUT); }
  void set(byte percent) { compare_ = (unsigned long)percent * 399 / 100; }

 private:
  volatile uint16_t &compare_;
  byte pin_;
};

Dimmer pump(OCR1A, 9);
Dimmer fan(OCR1B, 10);

void setup() {
  TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = 400;
  pump.begin();
  fan.begin();
}

void loop() {
  pump.set(30);
  fan.set(80);
  delay(1000);
}
