// OCR1B above TOP: its output never moves.
void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = 1 << COM1B0;
  TCCR1B = 1 << WGM12 | 1 << CS10;
  OCR1A = 1000;
  OCR1B = 2000;
}
void loop() {}
