// A duty scaled and held, in the arithmetic of 32 bits.
const unsigned int TOP = 799;

void setDuty(unsigned long permille) {
  if (permille > 1000) permille = 1000;
  OCR1A = permille * TOP / 1000;
}

void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = TOP;
}

void loop() {
  setDuty(analogRead(A0));
  delay(10);
}
