// A hundred steps of PWM on a pin without a unit.
const byte STEPS = 100;
const byte DUTY = 30;
volatile byte step_ = 0;

ISR(TIMER2_OVF_vect) {
  step_++;
  if (step_ >= STEPS) step_ = 0;
  if (step_ < DUTY) PORTB |= _BV(PORTB4);
  else PORTB &= ~_BV(PORTB4);
}

void setup() {
  pinMode(12, OUTPUT);
  TCCR2A = 0;
  TCCR2B = _BV(CS21);
  TIMSK2 = _BV(TOIE2);
}

void loop() {
}
