// wants D3: 2 kHz
#define sbi(r, b) ((r) |= _BV(b))
#define cbi(r, b) ((r) &= ~_BV(b))
#define FAN 3
void setup() {
  pinMode(FAN, OUTPUT);
  TCCR2B = 0;
  TCCR2A = 0;
  TCNT2 = 0;
  OCR2A = 249;
  OCR2B = 48;
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);  // 2 kHz on D3: fast PWM, prescaler 32, TOP 249
#ifdef LOUD
  OCR2B = 90;
#endif
}
void loop() { delay(5); }
