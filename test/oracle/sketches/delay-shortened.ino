// Timer 0 runs 64 times faster: delay(5) is over before timer 2 has come round once.
void setup() {
  pinMode(3, OUTPUT);
  TCCR0B = (TCCR0B & 0xF8) | 1;
  analogWrite(3, 65);
  delay(5);
  TCCR2A = _BV(COM2B0);
}
void loop() {}
