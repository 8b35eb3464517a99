// Frames of duties with both ends among them: a pin goes from port to unit and back.
const byte frames[3][4] = { {0, 64, 128, 255}, {255, 128, 64, 0}, {10, 20, 30, 40} };
const byte pins[4] = {3, 5, 6, 9};
void setup() { for (byte p : pins) pinMode(p, OUTPUT); }
void loop() {
  for (int f = 0; f < 3; f++) {
    for (int i = 0; i < 4; i++) analogWrite(pins[i], frames[f][i]);
    delay(150);
  }
}
