int notes[] = {262, 294, 330, 349};
void setup() {
  for (int i = 0; i < 4; i++) {
    tone(8, notes[i]);
    delay(250);
    noTone(8);
    delay(50);
  }
}
void loop() {}
