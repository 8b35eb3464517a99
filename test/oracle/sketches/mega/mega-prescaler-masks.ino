void setup() {
  TCCR1B = TCCR1B & 0xF8 | 0x01;
  TCCR3B = TCCR3B & 0xF8 | 0x02;
  TCCR4B = TCCR4B & 0xF8 | 0x04;
  TCCR5B = TCCR5B & 0xF8 | 0x05;
  analogWrite(11, 100);
  analogWrite(2, 110);
  analogWrite(6, 120);
  analogWrite(44, 130);
}
void loop() {}
