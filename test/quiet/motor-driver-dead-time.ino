// Two halves of a bridge on OC1A and OC1B, phase correct, the second inverted; dead time by a shift of the compare values.
const unsigned int TOP = 400;
const unsigned int DEAD = 8;

void setDrive(unsigned int duty) {
  if (duty < DEAD) duty = DEAD;
  if (duty > TOP - DEAD) duty = TOP - DEAD;
  OCR1A = duty - DEAD / 2;
  OCR1B = duty + DEAD / 2;
}

void setup() {
  pinMode(9, OUTPUT);
  pinMode(10, OUTPUT);
  TCCR1A = 0;
  TCCR1B = 0;
  ICR1 = TOP;
  setDrive(TOP / 2);
  TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(COM1B0) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
}

void loop() {
  setDrive(map(analogRead(A0), 0, 1023, DEAD, TOP - DEAD));
  delay(2);
}
