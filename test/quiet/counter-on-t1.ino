// Counts the turns of a pump at pin 5 (T1).
void setup() {
  Serial.begin(9600);
  TCCR1A = 0;
  TCCR1B = _BV(CS12) | _BV(CS11) | _BV(CS10);
}
void loop() {
  TCNT1 = 0;
  delay(1000);
  Serial.println(TCNT1);
}
