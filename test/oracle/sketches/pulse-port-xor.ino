// Toggled by exclusive or, ten milliseconds apart.
void setup() {
  DDRD = _BV(DDD4);
}

void loop() {
  PORTD ^= _BV(PORTD4);
  delay(10);
}
