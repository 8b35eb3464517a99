// wants D9: 10 kHz
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(COM1A0) | _BV(WGM10);
  TCCR1B = _BV(CS10);
  OCR1A = 64;
}
void loop() { delay(5); }
