// &= without the complement wipes all others.
void setup() {
  pinMode(9, OUTPUT);
  analogWrite(9, 50);
  TCCR1B &= (1 << CS10);
}
void loop() {}
