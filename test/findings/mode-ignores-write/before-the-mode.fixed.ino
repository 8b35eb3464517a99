ISR(TIMER1_COMPA_vect) { PINB = 1; }
void setup() {
  pinMode(8, OUTPUT);
  cli();
  TCCR1A = 0;
  TCCR1B = (1 << WGM12) | (1 << CS10);
  OCR1A = 16000;
  TIMSK1 = (1 << OCIE1A);
  sei();
}
void loop() {}
