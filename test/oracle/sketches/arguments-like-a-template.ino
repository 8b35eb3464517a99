// Two arguments that the parser takes for one.
int limit = 300;
void level(byte on, int step) {
  OCR2B = on ? step : 7;
}
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A |= _BV(COM2B1);
  level(limit < 400, 80 / (4) >> (1));
  delay(10);
}
void loop() {}
