#define JOIN(a, b, c) a##b##c
#define CTRL_A(n) JOIN(TCCR, n, A)
#define CTRL_B(n) JOIN(TCCR, n, B)
#define UNIT 4
void setup() {
  pinMode(7, OUTPUT);
  JOIN(TCCR, 4, A) = _BV(COM4B1) | _BV(WGM40);
  JOIN(TCCR, 4, B) = _BV(CS40);
  OCR4B = 99;
}
void loop() {}
