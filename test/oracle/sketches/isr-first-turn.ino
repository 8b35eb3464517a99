// Whether the routine comes before loop's first look decides for good whether the pin keeps its unit.
ISR(TIMER1_OVF_vect) { OCR2A = 200; }
void setup() {
  delay(12);
  OCR2A = 21;
  analogWrite(5, 100);
  TIMSK1 |= _BV(TOIE1);
}
void loop() {
  if (OCR2A < 22) digitalRead(5);
  delay(6);
}
