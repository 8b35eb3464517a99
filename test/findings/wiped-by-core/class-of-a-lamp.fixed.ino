class Lamp {
public:
  Lamp() {
  }
  void set(byte v) { analogWrite(3, v); }
};
Lamp lamp;
void setup() { TCCR2B = (TCCR2B & ~7) | (1 << CS20); TCCR2A = _BV(WGM20); }
void loop() { lamp.set(9); }
