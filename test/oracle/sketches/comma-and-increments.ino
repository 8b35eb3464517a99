void setup() {
  pinMode(3, OUTPUT);
  byte i, j;
  for (i = 0, j = 60; i < j; i++, j--) ;
  TCCR2A = 0x21;
  TCCR2B = 0x0B;
  OCR2A = j * 4;
  OCR2B = i++;
  OCR2B += i;
}
void loop() {}
