// wants D3: 2 kHz
#define sbi(r, b) ((r) |= _BV(b))
#define cbi(r, b) ((r) &= ~_BV(b))
#define FAN 3
void setup() {
  pinMode(FAN, OUTPUT);
  cbi(TCCR2B, CS22); // 4 kHz now
  sbi(TCCR2B, CS21);
  sbi(TCCR2A, COM2B1);
  OCR2B = 50;
#ifdef LOUD
  OCR2B = 90;
#endif
}
void loop() { delay(5); }
