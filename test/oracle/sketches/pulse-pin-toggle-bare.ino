// As fast as loop goes round.
void setup() {
  DDRD |= _BV(DDD7);
}

void loop() {
  PIND = _BV(PIND7);
}
