// A horn whose pitch a button changes, and a shutter moved once a second: their periods come to their end undisturbed.
void pitch(unsigned top) {
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = top;
  TCNT1 = 0;
}

void setup() {
  pinMode(9, OUTPUT);
  pinMode(11, OUTPUT);
  pinMode(4, INPUT_PULLUP);
  pitch(1999);
  TCCR2A = _BV(COM2A1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS22);
  OCR2A = 90;
}

void loop() {
  if (digitalRead(4) == LOW) pitch(999);
  TCNT2 = 0;
  delay(1000);
}
