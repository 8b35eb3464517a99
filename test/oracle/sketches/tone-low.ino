void setup() {
  tone(12, 31);
}
void loop() {}
