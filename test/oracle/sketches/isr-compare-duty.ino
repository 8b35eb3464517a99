// Brightness stepped in the overflow routine.
volatile byte level = 0;
ISR(TIMER2_OVF_vect) {
  OCR2A = level;
}
void setup() {
  pinMode(11, OUTPUT);
  TCCR2A = _BV(COM2A1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS22);
  TIMSK2 = _BV(TOIE2);
  level = 40;
}
void loop() {
  delay(30);
}
