// Lambdas that use statics, constants and types of the function around them.
void setup() {
  pinMode(9, OUTPUT);
  const byte five = 5;
  enum { SLOW = 7 };
  struct Pair { byte a, b; };
  OCR2A = []() { return five + SLOW; }();
  OCR2B = []() { Pair p = {1, 2}; return p.a + p.b; }();
}
void loop() {
  static byte n = 0;
  [&]() { analogWrite(9, 10 + n * 40); }();
  [&]() { if (++n > 5) n = 0; }();
  delay(5);
}
