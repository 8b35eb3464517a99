#ifdef __AVR_ATmega2560__
#define OUT 11
#else
#define OUT 9
#endif
void setup() {
  pinMode(OUT, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11) | _BV(WGM10);
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 600;
}
void loop() {}
