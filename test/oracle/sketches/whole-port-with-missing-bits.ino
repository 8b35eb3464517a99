// A whole port is made an output at once; its highest bit is not there on the chip.
byte pattern = 0b10010110;
void setup() {
  DDRC = 0xFF;
  PORTC = pattern;
}
void loop() {
  delay(3);
  PORTC = pattern = ~pattern;
}
