// One level by hand, the other by a duty of nothing: the program switches the pin.
int glow = 0;
void setup() { pinMode(10, OUTPUT); }
void loop() {
  digitalWrite(10, 1);
  analogWrite(10, glow);
}
