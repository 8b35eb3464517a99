void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = 'A' | 0x80;
  analogWrite(10, 'z');
}
void loop() {}
