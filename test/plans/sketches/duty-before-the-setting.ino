// wants D3: 2 kHz
void setup() {
  pinMode(3, OUTPUT);
  analogWrite(3, analogRead(A1) / 4);
  delay(6);
  TCCR2A |= _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS21);
  OCR2A = 100;
  analogWrite(3, 31);
}

void loop() {
  delay(1);
}
