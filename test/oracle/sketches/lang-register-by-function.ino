// sets ICR1 first and the duty from what the register holds, through a function that returns a reference
volatile uint16_t &dutyRegister(uint8_t pin) { return pin == 9 ? OCR1A : OCR1B; }
void setup() {
  TCCR1A = 0; TCCR1B = 0;
  TCCR1B |= _BV(WGM13);
  ICR1 = F_CPU / 2 / 20000;
  dutyRegister(9) = ICR1 / 4;
  dutyRegister(10) = ICR1 - dutyRegister(9);
  TCCR1A |= _BV(COM1A1) | _BV(COM1B1);
  TCCR1B |= _BV(CS10);
  DDRB |= bit(1) | bit(2);
}
void loop() {}
