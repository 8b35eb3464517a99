void setup() {
  DDRD |= _BV(PD6);
}
void loop() {
  cli();
  for (byte i = 0; i < 24; i++) {
    PORTD |= _BV(PD6);
    __asm__("nop\n\t");
    PORTD &= ~_BV(PD6);
  }
  sei();
  delay(20);
}
