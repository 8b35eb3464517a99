// Logical operators where they belong: in conditions.
bool wet() { return digitalRead(2); }
bool night() { return analogRead(A0) < 200; }

void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = (wet() && night()) ? _BV(CS21) : _BV(CS22);
}

void loop() {
  if ((TIFR2 & _BV(TOV2)) && (TCCR2B & _BV(CS21))) TIFR2 = _BV(TOV2);
  analogWrite(3, wet() || night() ? 30 : 200);
  delay(100);
}
