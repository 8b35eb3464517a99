void setup() {
  pinMode(10, OUTPUT);
  bitClear(TCCR1B, CS11);
  bitSet(TCCR1B, CS10);
  bitWrite(TCCR1B, WGM12, 1);
  bitSet(TCCR1A, COM1B1);
  OCR1B = 17;
}
void loop() {}
