// A "<" and a ">>" in one expression are no template.
unsigned int limit = 5;
byte gain = 80;
void setup() {
  pinMode(11, OUTPUT);
  TCCR2A |= _BV(COM2A1);
  OCR2A = OCR1B < limit ? 40 : gain >> 2;
  OCR2B = TCCR2B < 3 ? 1 ^ 2 : gain >> 1;
  if (limit < 34UL && gain >> 5 != 0xEC) analogWrite(9, 30);
}
void loop() { delay(5); }
