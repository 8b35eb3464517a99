// wants D3: 2 kHz
void setup() {
  pinMode(3, OUTPUT);
  analogWrite(3, analogRead(A1) / 4);
  delay(6);
  TCCR2B = 0;
  TCCR2A = _BV(COM2B1);
  TCCR2B = _BV(FOC2B);
  TCNT2 = 0;
  OCR2A = 249;
  OCR2B = 78;
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);  // 2 kHz on D3: fast PWM, prescaler 32, TOP 249
}

void loop() {
  delay(1);
}
