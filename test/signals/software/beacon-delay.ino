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
//= signal D4 running: high
//= signal D4 running: low
//= signal D4 running: pulse 0.999912..1 Hz, duty 50 %
