// writes timer 1's block through a pointer that walks
void setup() {
  volatile uint8_t *p = &TCCR1A;
  const uint8_t image[] = { 0x82, 0x19 };
  for (uint8_t i = 0; i < sizeof image; i++) *p++ = image[i];
  volatile uint16_t *w = (volatile uint16_t *)(p + (&ICR1L - &TCCR1C));
  *w = 640;
  w[1] = 160;
  DDRB |= 2;
}
void loop() {}
