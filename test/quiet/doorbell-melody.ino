const int speaker = 8;
const int notes[] PROGMEM = {262, 196, 196, 220, 196, 0, 247, 262};
const byte lengths[] = {4, 8, 8, 4, 4, 4, 4, 4};

void setup() {
  for (int n = 0; n < 8; n++) {
    int duration = 1000 / lengths[n];
    int note = pgm_read_word(&notes[n]);
    if (note > 0) tone(speaker, note, duration);
    delay(duration * 1.3);
    noTone(speaker);
  }
}

void loop() {}
