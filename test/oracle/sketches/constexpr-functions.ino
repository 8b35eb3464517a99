// Functions known when compiled: case labels, sizes, enumerators, template arguments.
constexpr int eight() { return 8; }
constexpr long squared(int n) { return (long) n * n; }
constexpr uint8_t bitsFor(uint16_t prescaler) {
  return prescaler == 1 ? 1 : prescaler == 8 ? 2 : prescaler == 64 ? 3 : 5;
}
constexpr int factorial(int n) { return n < 2 ? 1 : n * factorial(n - 1); }
template <int N> struct Size { static const int value = N; };
enum { LOW_ONE = eight() - 1, HIGH_ONE = squared(12) };
byte table[factorial(3)] = {1, 2, 3, 4, 5, 6};
byte chosen(int n) {
  switch (n) {
    case eight(): return 40;
    case squared(5): return 60;
    case 100 ... 100 + eight(): return 80;
  }
  return 0;
}
void setup() {
  TCCR2B = (TCCR2B & 0xF8) | bitsFor(eight());
  OCR2A = chosen(8);
  OCR2B = chosen(25);
  OCR1A = chosen(104) + LOW_ONE + HIGH_ONE;
  OCR1B = sizeof(table) + Size<factorial(4)>::value;
  OCR0A = factorial(5);
}
void loop() {
  int n = analogRead(A0) / 4;
  analogWrite(5, constrain(n / eight(), 20, squared(5)));
}
