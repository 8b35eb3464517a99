void quietly(void (*work)()) {
  uint8_t mask = TIMSK0;
  TIMSK0 &= ~_BV(TOIE0);
  work();
  TIMSK0 = mask;
}
void pulse() { PINB = _BV(PINB0); }
void setup() { DDRB |= _BV(DDB0); }
void loop() { quietly(pulse); }
