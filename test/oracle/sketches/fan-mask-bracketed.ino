void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = (TCCR2B & 0xF8) | 0x02;
  analogWrite(3, 200);
}
void loop() {}
