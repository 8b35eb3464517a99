// The pump's tachometer on ICP1 (D8): timer 1 free running, periods by input capture, fan duty on timer 2.
volatile uint16_t period;
volatile bool fresh;

ISR(TIMER1_CAPT_vect) {
  static uint16_t last;
  uint16_t now = ICR1;
  period = now - last;
  last = now;
  fresh = true;
}

void setup() {
  TCCR1A = 0;
  TCCR1B = _BV(ICNC1) | _BV(ICES1) | _BV(CS11) | _BV(CS10);
  TIMSK1 = _BV(ICIE1);
  pinMode(11, OUTPUT);
}

void loop() {
  if (fresh) {
    cli();
    uint16_t p = period;
    fresh = false;
    sei();
    byte duty = p > 2500 ? 220 : 120;
    analogWrite(11, duty);
  }
}
