// wants D3: 31 kHz +-2 %
void setup() {
  pinMode(3, OUTPUT);
  if (digitalRead(4)) TCCR2B = 1;
  else { TCCR2B = 2; }
  TCCR2B = 0;
  TCCR2A = 0;
  TCNT2 = 0;
  OCR2A = 64;
  TCCR2A = _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS21);  // 30.7692 kHz on D3: fast PWM, prescaler 8, TOP 64
}
void loop() { if (digitalRead(7) == HIGH) analogWrite(3, 50); else analogWrite(3, 0); delay(10); }
