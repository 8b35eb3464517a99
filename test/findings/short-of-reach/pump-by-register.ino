// wants D9: 15.6 kHz +-2 %, reach 5..95 %
//=^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding short-of-reach "D9: duty 0.1953..25.1 % never gets up to 95 %"
//= fix "Scale the duty to 0..1023 with map"
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11) | _BV(WGM10);
  TCCR1B = _BV(WGM12) | _BV(CS10);
}

void loop() { OCR1A = analogRead(A0) / 4 + 1; }
