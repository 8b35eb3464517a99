class Lamp {
public:
  Lamp() {
    TCCR2B = (TCCR2B & ~7) | (1 << CS20);
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding wiped-by-core "TCCR2B = 0x01 is written before the core's init, which changes it to 0x05"
//= fix "Move it to the beginning of setup"
    TCCR2A = _BV(WGM20);
  }
  void set(byte v) { analogWrite(3, v); }
};
Lamp lamp;
void setup() {}
void loop() { lamp.set(9); }
