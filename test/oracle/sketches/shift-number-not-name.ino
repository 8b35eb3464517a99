// CS20 is 0: the shift by it gives 1, the bare name gives 0.
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A |= COM2B1;
  TCCR2B = CS20;
  OCR2B = 9;
}
void loop() {}
