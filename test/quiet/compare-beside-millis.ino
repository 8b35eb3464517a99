// A second heartbeat on the core's own timer: it counts on as before.
volatile byte beats;
ISR(TIMER0_COMPA_vect) { beats++; }
void setup() {
  OCR0A = 0xAF;
  TIMSK0 |= _BV(OCIE0A);
}
void loop() { delay(10); }
