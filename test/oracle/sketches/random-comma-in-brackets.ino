// Assignments before a comma inside brackets: the parser stumbles over them.
byte count6 = 1, a, b = 2, c = 3, d, e = 7;
byte f(int n) { return (d = n, d + 1); }
void setup() {
  OCR2A = (count6 += 1, 0) + 30;
  OCR2B = (count6 += 5, count6);
  OCR0A = (a = 1, b = 2, c);
  OCR0B = (a = b ? c : d, e);
  OCR1A = f((a = b = 1, b)) + f(8);
  if ((a = 4, (b = a + 1, b) > 4)) OCR1B = a * b;
}
void loop() {
}
