// A mains lamp by phase: zero crossing on D2, delay by timer 1, firing by its compare and overflow interrupts.
const byte gate = 4;
volatile unsigned int wait = 8000;

void crossing() {
  TCNT1 = 0;
  OCR1A = wait;
  TCCR1B = _BV(CS11);
}

ISR(TIMER1_COMPA_vect) {
  digitalWrite(gate, HIGH);
  TCNT1 = 65536 - 100;
}

ISR(TIMER1_OVF_vect) {
  digitalWrite(gate, LOW);
  TCCR1B = 0;
}

void setup() {
  pinMode(gate, OUTPUT);
  TCCR1A = 0;
  TCCR1B = 0;
  TIMSK1 = _BV(OCIE1A) | _BV(TOIE1);
  attachInterrupt(0, crossing, RISING);
}

void loop() {
  unsigned int w = map(analogRead(A0), 0, 1023, 1000, 15000);
  noInterrupts();
  wait = w;
  interrupts();
  delay(20);
}
