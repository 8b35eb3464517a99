// two bases, a virtual chain, a call of the base's own
struct Named { const char *name; Named(const char *n) : name(n) {} };
struct Out { virtual ~Out() {} virtual void set(uint8_t v) = 0; void off() { set(0); } };
struct Scaled : Out { uint8_t k; Scaled(uint8_t k_) : k(k_) {} virtual uint8_t scale(uint8_t v) { return v * k; } };
struct Lamp final : public Named, public Scaled {
  Lamp(const char *n, uint8_t k) : Named(n), Scaled(k) {}
  uint8_t scale(uint8_t v) override { return Scaled::scale(v) + strlen(name); }
  void set(uint8_t v) override { OCR2B = scale(v); }
};
Lamp lamp("bench", 3);
Out *out = &lamp;
void setup() { DDRD |= 8; TCCR2A = 0x23; out->set(20); }
void loop() { delay(2); out->off(); delay(2); static_cast<Scaled *>(out)->set(40); }
