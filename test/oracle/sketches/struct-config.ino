struct Config { uint8_t a; uint8_t b; uint8_t top; uint8_t duty; };
const Config night = { 0x23, 0x0B, 99, 10 };
const Config day = { 0x21, 0x0A, 199, 150 };
void apply(const Config &c) {
  TCCR2A = c.a;
  TCCR2B = c.b;
  OCR2A = c.top;
  OCR2B = c.duty;
}
void setup() {
  DDRD |= _BV(3);
  apply(night);
}
void loop() {
  delay(40);
  apply(day);
  delay(40);
  apply(night);
}
