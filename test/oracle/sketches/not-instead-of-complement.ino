void setup() {
  pinMode(9, OUTPUT);
  analogWrite(9, 50);
  TCCR1B &= !(1 << CS11);
}
void loop() {}
