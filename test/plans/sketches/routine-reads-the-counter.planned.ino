// wants D9: 10 kHz
volatile unsigned int seen;
ISR(TIMER1_OVF_vect) { seen = TCNT1; }
void setup() {
  pinMode(9, OUTPUT);
  TIMSK1 |= _BV(TOIE1);
  uint8_t oldSREG = SREG;
  cli();
  TCCR1B = 0;
  TCCR1A = 0;
  TCNT1 = 0;
  OCR1A = 401;
  TCCR1B = _BV(WGM13) | _BV(WGM12);
  ICR1 = 1599;
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B |= _BV(CS10);  // 10 kHz on D9: fast PWM, prescaler 1, TOP 1599
  SREG = oldSREG;
}
void loop() { delay(5); }
