// for pulsewright: board mega
// wants D11: 38 kHz +-1 %, duty 30..50 %
void setup() {
  TCCR1B = 0;
  TCCR1A = 0;
  TCNT1 = 0;
  OCR1A = 126;
  TCCR1B = _BV(WGM13) | _BV(WGM12);
  ICR1 = 420;
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B |= _BV(CS10);  // 38.0048 kHz on D11: fast PWM, prescaler 1, TOP 420
  pinMode(11, OUTPUT);
}
void loop() { OCR1A = 164; delay(10); OCR1A = 181; delay(10); }
