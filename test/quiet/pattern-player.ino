const uint16_t pattern[][2] = {{440, 200}, {0, 100}, {660, 200}};
void setup() {
  for (const auto &entry : pattern) {
    if (entry[0]) tone(8, entry[0], entry[1]);
    delay(entry[1]);
  }
  noTone(8);
}
void loop() {}
