// wants D9: 500 Hz
volatile unsigned count;
ISR(TIMER1_OVF_vect) { count++; }
void setup() {
  pinMode(9, OUTPUT);
  TIMSK1 = _BV(TOIE1);
  TCCR1B = 0;
  TCCR1A = 0;
  TCNT1 = 0;
  OCR1A = 0;
  TCCR1B = _BV(WGM13) | _BV(WGM12);
  ICR1 = 31999;
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B |= _BV(CS10);  // 500 Hz on D9: fast PWM, prescaler 1, TOP 31999
}
void loop() { OCR1A = 7528; delay(100); }
