// wants D3: fan-4wire
void setup() { pinMode(3, OUTPUT);
  TCCR2B = 0;
  TCCR2A = 0;
  TCNT2 = 0;
  OCR2A = 79;
  TCCR2A = _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS21);  // 25 kHz on D3: fast PWM, prescaler 8, TOP 79
}
void loop() { analogWrite(3, map(analogRead(A0) / 4, 0, 255, 0, 79)); delay(50); }
