// analogWrite clears the lower bit of timer 4's channel A, and of no other.
void setup() {
  TCCR4A ^= bit(COM4A0) | bit(COM4B0);
  TCCR3A |= bit(COM3A0);
  analogWrite(6, B01010011);
  analogWrite(7, 30);
  analogWrite(5, 40);
}
void loop() {}
