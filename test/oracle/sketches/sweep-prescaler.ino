const byte codes[5] = { 1, 2, 3, 4, 5 };
byte at = 0;
void setup() {
  pinMode(10, OUTPUT);
  analogWrite(10, 128);
}
void loop() {
  TCCR1B = (TCCR1B & 0xF8) | codes[at];
  at = (at + 1) % 5;
  delay(30);
}
