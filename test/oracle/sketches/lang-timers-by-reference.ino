// base class keeps references to its timer's registers, derived ones give them
class Pwm8 {
  protected:
    volatile uint8_t &a, &b, &ocra, &ocrb;
  public:
    Pwm8(volatile uint8_t &a_, volatile uint8_t &b_, volatile uint8_t &oa, volatile uint8_t &ob)
      : a(a_), b(b_), ocra(oa), ocrb(ob) {}
    virtual uint8_t clockBits(uint16_t div) = 0;
    void begin(uint16_t div) {
      a = _BV(WGM01) | _BV(WGM00);
      b = clockBits(div);
    }
    void duty(uint8_t da, uint8_t db) { ocra = da; ocrb = db; a |= 0xA0; }
};
class T0 : public Pwm8 {
  public:
    T0() : Pwm8(TCCR0A, TCCR0B, OCR0A, OCR0B) {}
    uint8_t clockBits(uint16_t div) override {
      switch (div) { case 1: return 1; case 8: return 2; case 64: return 3; case 256: return 4; default: return 5; }
    }
};
class T2 : public Pwm8 {
  public:
    T2() : Pwm8(TCCR2A, TCCR2B, OCR2A, OCR2B) {}
    uint8_t clockBits(uint16_t div) override {
      switch (div) { case 1: return 1; case 8: return 2; case 32: return 3; case 64: return 4; case 128: return 5; case 256: return 6; default: return 7; }
    }
};
T0 lamp; T2 pump;
Pwm8 *all[] = { &lamp, &pump };
void setup() {
  DDRD |= _BV(3) | _BV(5) | _BV(6);
  DDRB |= _BV(3);
  for (Pwm8 *p : all) p->begin(64);
  all[0]->duty(30, 60);
  all[1]->duty(90, 128);
}
void loop() {}
