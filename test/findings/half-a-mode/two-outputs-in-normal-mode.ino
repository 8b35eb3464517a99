void setup() {
  pinMode(9, OUTPUT); pinMode(10, OUTPUT);
  TCCR1A = (1 << COM1A1) | (1 << COM1A0) | (1 << COM1B1);
  TCCR1B = (1 << CS10);
//= finding half-a-mode "Timer 1 runs in normal mode with TOP 65535, where COM1A1:0 = 3 and COM1B1:0 = 2 only put D9 high and D10 low a"
//= fix "Toggle D9 and D10 at each match: COM1A0 and COM1B0 alone"
  OCR1A = 20000;
  OCR1B = 40000;
}
void loop() {}
