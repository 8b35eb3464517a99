// delay(0) is over at once: the core's setting before it is not one that lasts.
void setup() {
  delay(0);
  TCCR0A = 0;
  delayMicroseconds(0);
  TCCR0A = 2;
}
void loop() {}
