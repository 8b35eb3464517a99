void pwm16Begin() {
  DDRB |= _BV(PB1) | _BV(PB2);
  TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = 0xffff;
}
void pwm16(uint8_t pin, uint16_t value) {
  switch (pin) {
    case 9: OCR1A = value; break;
    case 10: OCR1B = value; break;
  }
}
void setup() {
  pwm16Begin();
  pwm16(9, 0x4000);
  pwm16(10, 0xffff);
}
void loop() {}
