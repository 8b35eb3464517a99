// wants D9: 15.6 kHz +-2 %, reach 5..95 %
void setup() {
  pinMode(9, OUTPUT);
  TCCR1B = 0;
  TCCR1A = 0;
  TCNT1 = 0;
  OCR1A = 0;
  TCCR1B = _BV(WGM13) | _BV(WGM12);
  ICR1 = 1025;
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B |= _BV(CS10);  // 15.5945 kHz on D9: fast PWM, prescaler 1, TOP 1025
}

void loop() { OCR1A = map(analogRead(A0) / 4 + 1, 0, 256, 0, 1025); }
