struct Colour { byte r, g, b; };
const Colour night = {40, 10, 0};
const Colour day = {255, 240, 200};
void show(const Colour &c) {
  analogWrite(9, c.r);
  analogWrite(10, c.g);
  analogWrite(11, c.b);
}
void setup() {}
void loop() {
  show(analogRead(A0) > 512 ? day : night);
  delay(50);
}
