void setup() {
  pinMode(10, OUTPUT);
  TCCR1B |= (0 << CS11) | (1 << CS12);
  TCCR1B |= (0 << CS10);
  analogWrite(10, 5);
}
void loop() {}
