void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = (1<<COM1A1)|(1<<WGM11);
  TCCR1B = (1<<CS11);
  OCR1A = 511 / 3;
}
void loop() {}
