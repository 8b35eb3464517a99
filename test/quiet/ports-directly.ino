void setup() {
  DDRB = DDRB | B00100000;
  DDRD |= _BV(PD4) | _BV(PD7);
  PORTD &= ~_BV(PD7);
}
void loop() {
  PORTB ^= _BV(PB5);
  PORTD = PORTD & 0xF0 | (PIND >> 4 & 0x0F);
  _delay_ms(10);
}
