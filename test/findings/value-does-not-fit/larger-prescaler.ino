const unsigned int TOP_VALUE = 999;
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS22);
  OCR2A = TOP_VALUE;
//=       ^^^^^^^^^ finding value-does-not-fit "999 does not fit into OCR2A, which is 8 bits wide (0..255): it becomes 231"
//= fix "Write 249 with prescaler 256: 250 Hz"
  OCR2B = 100;
}
void loop() {}
