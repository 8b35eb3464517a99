void setup() {
  pinMode(9, OUTPUT);
  TCCR1B &= ~(1 << CS11);
  TCCR1B |= (1 << CS10);
}
void loop() { analogWrite(9, 11); }
