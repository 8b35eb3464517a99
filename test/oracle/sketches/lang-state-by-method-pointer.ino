// a state machine whose states are methods
class Machine {
  typedef void (Machine::*State)();
  State state;
  uint8_t n;
  void warm() { OCR0A = 60; n++; if (n > 2) state = &Machine::hot; }
  void hot() { OCR0A = 160; if (n == 3) n = 4; else { n = 0; state = &Machine::warm; } }
 public:
  Machine() : state(&Machine::warm), n(0) {}
  void step() { (this->*state)(); }
};
Machine m;
void setup() { DDRD |= 64; TCCR0A = 0x83; }
void loop() { m.step(); delay(3); }
