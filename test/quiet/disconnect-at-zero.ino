// Direct duty on D3 in fast PWM; at nothing the unit is disconnected, so that no spike remains.
void duty(uint8_t v) {
  if (v == 0) {
    TCCR2A &= ~_BV(COM2B1);
    PORTD &= ~_BV(PD3);
  } else {
    OCR2B = v;
    TCCR2A |= _BV(COM2B1);
  }
}

void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS20);
}

void loop() {
  duty(analogRead(A0) / 4);
  delay(10);
}
