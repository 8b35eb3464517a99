// Timer 0 runs eight times as fast: so do delays.
void setup() {
  TCCR0B = (TCCR0B & 0xF8) | 0x02;
  pinMode(4, OUTPUT);
}

void loop() {
  digitalWrite(4, HIGH);
  delay(100);
  digitalWrite(4, LOW);
  delay(60);
}
