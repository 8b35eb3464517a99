// 064 is octal.
void setup() {
  pinMode(9, OUTPUT);
  analogWrite(9, 064);
}
void loop() {}
