// A frequency chosen by a switch; each branch's comment is right for itself.
void setup() {
  pinMode(9, OUTPUT);
  pinMode(2, INPUT_PULLUP);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  if (digitalRead(2)) {
    TCCR1B = _BV(WGM13) | _BV(CS10);  // 25 kHz
    ICR1 = 320;
    OCR1A = 100;
  } else {
    TCCR1B = _BV(WGM13) | _BV(CS11);  // 1 kHz
    ICR1 = 1000;
    OCR1A = 300;
  }
}

void loop() {}
