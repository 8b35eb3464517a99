// 0x03 from init ORed with 0x04: clock from pin T1.
void setup() {
  pinMode(10, OUTPUT);
  TCCR1B |= 1 << CS12;
  OCR1B = 55;
  TCCR1A |= 1 << COM1B1;
}
void loop() {}
