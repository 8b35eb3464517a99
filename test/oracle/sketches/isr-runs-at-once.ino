// The overflow flag has long been set when its interrupt is enabled: the routine runs before loop does.
volatile byte seen = 0;
ISR(TIMER1_OVF_vect) { seen = 1; }
void setup() {
  analogWrite(5, 100);
  delay(10);
  TIMSK1 |= _BV(TOIE1);
}
void loop() {
  if (seen == 0) digitalWrite(5, LOW);
  delay(6);
}
