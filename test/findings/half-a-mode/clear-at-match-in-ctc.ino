void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1);
  TCCR1B = _BV(WGM12) | _BV(CS10);
//= finding half-a-mode "Timer 1 runs in CTC with TOP OCR1A, where COM1A1:0 = 2 only puts D9 low at each match: it stays so and gives n"
//= fix "Toggle D9 at each match: COM1A0 alone"
  OCR1A = 399;
}
void loop() {}
