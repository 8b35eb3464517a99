// for pulsewright: board mega
// tone takes timer 2; the fan hangs on timer 1.
void setup() {
  pinMode(11, OUTPUT);
  TCCR1B = (TCCR1B & ~(_BV(CS12) | _BV(CS11) | _BV(CS10))) | _BV(CS10);
}

void loop() {
  analogWrite(11, 180);
  tone(22, 880, 100);
  delay(1000);
}
