volatile boolean lampOn = false;
ISR(TIMER1_COMPA_vect) {
  lampOn = !lampOn;
  digitalWrite(13, lampOn);
}
void setup() {
  pinMode(13, OUTPUT);
  cli();
  TCCR1A = 0;
  TCCR1B = 0;
  TCNT1 = 0;
  OCR1A = 2499;
  TCCR1B |= (1 << WGM12);
  TCCR1B |= (1 << CS11) | (1 << CS10);
  TIMSK1 |= (1 << OCIE1A);
  sei();
}
void loop() {}
