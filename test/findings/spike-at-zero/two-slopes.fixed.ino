void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = (1 << COM2B1) | (1 << WGM20);
  TCCR2B = (1 << WGM22) | (1 << CS20);
  OCR2A = 63;
}
void loop() { OCR2B = map(analogRead(A0), 0, 1023, 0, 63); }
