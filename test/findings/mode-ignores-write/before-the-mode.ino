ISR(TIMER1_COMPA_vect) { PINB = 1; }
void setup() {
  pinMode(8, OUTPUT);
  cli();
  OCR1A = 16000;
//= finding mode-ignores-write "OCR1A = 16000 is stored as 128: while a mode with fixed TOP 255 is on, only these bits are kept"
//= fix "Move it behind the mode"
  TCCR1A = 0;
  TCCR1B = (1 << WGM12) | (1 << CS10);
  TIMSK1 = (1 << OCIE1A);
  sei();
}
void loop() {}
