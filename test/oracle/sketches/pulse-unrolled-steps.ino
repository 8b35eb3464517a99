// Four steps of a pump's stepper, unrolled.
void setup() {
  DDRC |= 0x0F;
}

void loop() {
  PORTC = 0x09;
  delay(3);
  PORTC = 0x0C;
  delay(3);
  PORTC = 0x06;
  delay(3);
  PORTC = 0x03;
  delay(3);
}
