ISR(PCINT2_vect) {
  if (PIND & (1 << PD4)) TCCR2A |= (1 << COM2A1);
  else TCCR2A &= ~(1 << COM2A1);
}
void setup() {
  DDRB |= 1 << PB3;
  PCICR = 1 << PCIE2;
  PCMSK2 = 1 << PCINT20;
  TCCR2A = 3;
  TCCR2B = 4;
  OCR2A = 88;
}
void loop() { delay(5); }
