// Guards that put things back when their block is left.
struct Guard {
  uint8_t old;
  Guard() : old(SREG) {
    cli();
  }
  ~Guard() {
    SREG = old;
    OCR2B = 55;
  }
};
struct Select {
  uint8_t pin;
  Select(uint8_t p) : pin(p) {
    PORTB |= 1 << p;
  }
  ~Select() {
    PORTB &= ~(1 << pin);
  }
};
uint8_t f() {
  Guard g;
  if (PINB & 1) return 3;
  {
    Select s(2);
    OCR2A = PORTB;
  }
  return 4;
}
void setup() {
  DDRB = 4;
  OCR0A = f() + PORTB;
}
void loop() {}
