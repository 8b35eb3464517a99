// The overflow routine's 16-bit write may come between the two bytes of reading ICR1.
ISR(TIMER2_OVF_vect) {
  OCR1B = 1024;
}
void setup() {
  TCCR1A = 1 << WGM11;
  TCCR1B = 1 << WGM12 | 1 << CS10;
  TIMSK2 |= _BV(TOIE2);
}
void loop() {
  analogWrite(9, (~ICR1 >> 6) % 301);
}
