void setup() {
  for (int pin = 2; pin <= 13; pin++) analogWrite(pin, pin * 15);
  analogWrite(44, 20);
  analogWrite(45, 40);
  analogWrite(46, 60);
}
void loop() {}
