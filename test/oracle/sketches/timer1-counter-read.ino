// Measures with TCNT1 while pin 3 puts out its own.
void setup() {
  TCCR1A = 0;
  TCCR1B = _BV(CS11);
  pinMode(3, OUTPUT);
  analogWrite(3, 128);
}
void loop() {
  TCNT1 = 0;
  delay(3);
  unsigned int took = TCNT1;
  if (took > 1000) analogWrite(3, 129);
}
