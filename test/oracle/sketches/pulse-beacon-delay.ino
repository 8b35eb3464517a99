// A beacon: half a second on, half a second off.
const byte BEACON = 4;

void setup() {
  pinMode(BEACON, OUTPUT);
}

void loop() {
  digitalWrite(BEACON, HIGH);
  delay(500);
  digitalWrite(BEACON, LOW);
  delay(500);
}
