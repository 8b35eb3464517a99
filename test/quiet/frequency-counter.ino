// Pulses on T1 (D5) counted over a gate of 100 ms from timer 2.
volatile unsigned long result;
volatile byte gate;
volatile unsigned int overflows;

ISR(TIMER1_OVF_vect) { overflows++; }

ISR(TIMER2_COMPA_vect) {
  if (++gate < 100) return;
  gate = 0;
  TCCR1B = 0;
  unsigned int low = TCNT1;
  result = ((unsigned long)overflows << 16) | low;
  TCNT1 = 0;
  overflows = 0;
  TCCR1B = _BV(CS12) | _BV(CS11) | _BV(CS10);
}

void setup() {
  Serial.begin(9600);
  pinMode(5, INPUT);
  TCCR1A = 0;
  TCCR1B = 0;
  TCNT1 = 0;
  TIMSK1 = _BV(TOIE1);
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS22);
  OCR2A = 249;
  TIMSK2 = _BV(OCIE2A);
  TCCR1B = _BV(CS12) | _BV(CS11) | _BV(CS10);
}

void loop() {
  noInterrupts();
  unsigned long hz = result * 10;
  interrupts();
  Serial.println(hz);
  delay(500);
}
