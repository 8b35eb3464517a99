// A mill's motor: a fault input stops the timer and lets the pin go low.
const byte fault = 2;

void halt() {
  TCCR1A &= ~_BV(COM1A1);
  PORTB &= ~_BV(PB1);
}

void run() { TCCR1A |= _BV(COM1A1); }

void setup() {
  pinMode(fault, INPUT_PULLUP);
  pinMode(9, OUTPUT);
  TCCR1A = _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = 400;
  OCR1A = 200;
}

void loop() {
  if (digitalRead(fault) == LOW) halt();
  else run();
}
