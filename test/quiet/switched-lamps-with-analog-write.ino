// Fully on and off by analogWrite on pins without a timer.
const byte relays[] = {2, 4, 7};
void setup() {}
void loop() {
  for (byte i = 0; i < 3; i++) {
    analogWrite(relays[i], 255);
    delay(200);
    analogWrite(relays[i], 0);
  }
}
