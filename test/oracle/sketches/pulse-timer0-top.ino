// Timer 0 counts to 124 only: delay takes each overflow for 256 ticks.
void setup() {
  TCCR0A = _BV(WGM01) | _BV(WGM00);
  TCCR0B = _BV(WGM02) | _BV(CS01) | _BV(CS00);
  OCR0A = 124;
  pinMode(4, OUTPUT);
}

void loop() {
  digitalWrite(4, HIGH);
  delay(20);
  digitalWrite(4, LOW);
  delay(50);
}
