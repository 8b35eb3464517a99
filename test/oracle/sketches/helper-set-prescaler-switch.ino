void setPrescaler(int divisor) {
  byte mode;
  switch (divisor) {
    case 1: mode = 0x01; break;
    case 8: mode = 0x02; break;
    case 64: mode = 0x03; break;
    case 256: mode = 0x04; break;
    case 1024: mode = 0x05; break;
    default: return;
  }
  TCCR1B = TCCR1B & 0b11111000 | mode;
}
void setup() {
  pinMode(9, OUTPUT);
  setPrescaler(8);
  setPrescaler(3);
  analogWrite(9, 120);
}
void loop() {}
