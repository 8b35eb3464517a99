// Comments that name other rates than the pin's pulse.
volatile unsigned long n;
ISR(TIMER2_COMPA_vect) { n++; }

void setup() {
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS22);  // 250 kHz timer clock
  OCR2A = 249;         // 1 kHz
  TIMSK2 = _BV(OCIE2A);
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);  // no prescaling: 16 MHz
  ICR1 = 639;   // 25 kHz
  OCR1A = 160;  // a quarter
}

void loop() {}
