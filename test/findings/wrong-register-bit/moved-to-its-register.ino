void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = (1 << COM1A1) | (1 << WGM12) | (1 << WGM10);
//=                              ^^^^^ finding wrong-register-bit "WGM12 is a bit of TCCR1B; in TCCR1A bit 3 is reserved and does nothing"
//= fix "Write WGM12 to TCCR1B"
  TCCR1B = (1 << CS10);
}
void loop() { OCR1A = 77; }
