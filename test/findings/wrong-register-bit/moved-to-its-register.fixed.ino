void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = (1 << COM1A1) | (1 << WGM10);
  TCCR1B = (1 << CS10) | (1 << WGM12);
}
void loop() { OCR1A = 77; }
