// Comments about prescalers: one above three lines that set the field together, and one with the number in front.
ISR(TIMER1_COMPA_vect) { PORTB ^= _BV(5); }

void setup() {
  pinMode(13, OUTPUT);
  TCCR1A = 0;
  TCCR1B = 0;
  OCR1A = 39999;
  TCCR1B |= _BV(WGM12);
  // prescaler to 8: a beat lasts 20 ms
  TCCR1B &= ~_BV(CS10);
  TCCR1B |= _BV(CS11);
  TCCR1B &= ~_BV(CS12);
  TIMSK1 = _BV(OCIE1A);
  pinMode(3, OUTPUT);
  TCCR2B = _BV(CS21);  // 8 prescaler: 0,5 microseconds a count
}

void loop() { analogWrite(3, 60); }
