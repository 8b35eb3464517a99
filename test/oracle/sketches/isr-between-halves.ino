// Both write 16-bit registers of timer 1: the routine can come between the two halves of loop's write.
volatile byte n = 0;
ISR(TIMER2_OVF_vect) {
  n++;
  OCR1A = 1023;
}
void setup() {
  TCCR2A = 0;
  TCCR2B = _BV(CS21);
  TIMSK2 = _BV(TOIE2);
}
void loop() {
  ICR1 = 20 + (n & 3);
}
