void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = TCCR2B & 0b11111000 | 0x01;  // 31 kHz on 3 and 11
}
void loop() { analogWrite(3, 128); }
