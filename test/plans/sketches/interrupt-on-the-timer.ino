// wants D9: 500 Hz
volatile unsigned count;
ISR(TIMER1_OVF_vect) { count++; }
void setup() {
  pinMode(9, OUTPUT);
  TIMSK1 = _BV(TOIE1);
}
void loop() { analogWrite(9, 60); delay(100); }
