// Timer 0 four times slower.
void setup() {
  TCCR0B = (TCCR0B & 0xF8) | 0x04;
  pinMode(4, OUTPUT);
}

void loop() {
  digitalWrite(4, HIGH);
  delay(3);
  digitalWrite(4, LOW);
  delay(7);
}
