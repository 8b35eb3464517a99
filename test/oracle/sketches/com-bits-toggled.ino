void setup() {
  pinMode(9, OUTPUT);
  analogWrite(9, 99);
}
void loop() {
  TCCR1A ^= _BV(COM1A1);
  delay(20);
}
