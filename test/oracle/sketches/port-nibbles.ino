void setup() {
  DDRD |= 0xF0;
  PORTD = (PORTD & 0x0F) | 0xA0;
}
void loop() {
  PORTD ^= 0xF0;
  delay(5);
}
