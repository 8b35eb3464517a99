// a < 0 >= 0 and a + b < c >> d: what looks like a template's closing mark is half of an operator.
int a = 3, b = 5, c = 40, d = 2;
void setup() {
  pinMode(3, OUTPUT);
  OCR2A = (a < 0 >= 0) + 10;
  OCR2B = (a + b < c >> d) + 20;
  OCR0A = (a < b >= 1 ? 33 : 44);
  OCR0B = a < b >= 1 && c > d ? 33 : 44;
  if (a < 0 >= 0) OCR1A = 5;
  if (a < b > 0 && c) OCR1B = 6;
}
void loop() {}
