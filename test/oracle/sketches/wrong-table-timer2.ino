// Timer 1's prescaler table used for timer 2: 011 is 32 here, not 64.
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = (1 << 1) | (1 << 0); // prescaler 64
  OCR2B = 31;
}
void loop() {}
