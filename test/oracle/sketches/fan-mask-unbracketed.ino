void setup() {
  pinMode(11, OUTPUT);
  TCCR2B = TCCR2B & B11111000 | B00000001;
  analogWrite(11, 60);
}
void loop() {}
