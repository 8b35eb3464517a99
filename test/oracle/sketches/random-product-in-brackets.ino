// A product in brackets is no conversion to a pointer to a function.
int a = 3, b = 5, c = 7;
void setup() {
  OCR2A = (a * (b)) * c;
  OCR2B = (a * (b)) & c;
  OCR0A = (a && ((long)(b * c))) * ((char)(c));
  OCR0B = (a * (b)) - c;
  OCR1A = (a & (b)) - c;
  OCR1B = (a && (b)) & c;
}
void loop() {}
