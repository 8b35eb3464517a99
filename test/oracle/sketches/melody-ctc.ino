const int notes[] = { 262, 294, 330, 349 };
void play(int hz) {
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 1000000L / hz - 1;
}
void setup() { pinMode(9, OUTPUT); }
void loop() {
  for (int i = 0; i < 4; i++) {
    play(notes[i]);
    delay(25);
  }
}
