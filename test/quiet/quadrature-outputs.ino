// Two square waves a quarter of a period apart on D9 and D10: toggled by compare A and B of one timer in CTC.
void setup() {
  pinMode(9, OUTPUT);
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1A0) | _BV(COM1B0);
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 999;
  OCR1B = 499;
}

void loop() {}
