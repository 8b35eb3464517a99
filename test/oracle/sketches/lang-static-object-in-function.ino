// an object made inside a function at its first call
class Chiller {
 public:
  Chiller() { TCCR2A = 0x23; TCCR2B = 0x0A; OCR2A = 199; }
  void run(uint8_t d) { OCR2B = d; DDRD |= 8; }
};
Chiller &get() { static Chiller it; return it; }
void setup() { get().run(50); }
void loop() { get().run(100); delay(1); }
