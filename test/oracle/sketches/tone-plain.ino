void setup() {
  tone(8, 440);
}
void loop() {}
