// wants D9: 15.6 kHz +-2 %, reach 5..95 %
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11) | _BV(WGM10);
  TCCR1B = _BV(WGM12) | _BV(CS10);
}

void loop() { OCR1A = analogRead(A0) / 4 + 1; }
