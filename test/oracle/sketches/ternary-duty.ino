int hour = 7;
void setup() {
  pinMode(5, OUTPUT);
  analogWrite(5, hour < 6 || hour > 20 ? 255 : hour * 10);
}
void loop() {}
