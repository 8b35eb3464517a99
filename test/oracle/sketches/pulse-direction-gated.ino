// Open drain: the level stays, the direction is switched.
void setup() {
  PORTD &= ~_BV(PORTD4);
}

void loop() {
  DDRD |= _BV(DDD4);
  delay(2);
  DDRD &= ~_BV(DDD4);
  delay(3);
}
