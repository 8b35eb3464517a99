// 8-bit compare register given more than it can hold.
void setup() {
  pinMode(11, OUTPUT);
  TCCR2A = _BV(COM2A0) | _BV(WGM21);
  TCCR2B = _BV(CS22);
  OCR2A = 999;
}
void loop() {}
