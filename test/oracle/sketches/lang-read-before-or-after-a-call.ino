// what is only read beside a call that changes it: the compiler may turn the operands round
uint8_t n = 1;
uint8_t inc() { n += 3; return 1; }
uint8_t two(uint8_t a, uint8_t b) { return a * 16 + b; }
uint8_t t[8], i;
uint8_t step() { i++; return 5; }
void setup() {
  DDRB |= 0x0E; DDRD |= 8; TCCR1A = 0xA1; TCCR2A = 0xA3;
  OCR1A = n + inc();
  n = n + inc();
  OCR1B = n * 2 - inc() * n;
  OCR2A = two(n, inc());
  t[i] = step(); t[i] += step();
  OCR2B = t[0] * 16 + t[2];
}
void loop() {}
