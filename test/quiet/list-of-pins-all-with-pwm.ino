const byte lamps[] = {3, 5, 6, 9, 10, 11};

void setup() {
  for (byte i = 0; i < 6; i++) pinMode(lamps[i], OUTPUT);
}

void loop() {
  for (byte i = 0; i < 6; i++) {
    analogWrite(lamps[i], 20 + 40 * i);
    delay(50);
    analogWrite(lamps[i], 0);
  }
}
