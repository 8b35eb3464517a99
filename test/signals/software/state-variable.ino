// The usual variable that is turned over.
const int lampPin = 12;
bool lit = false;

void setup() {
  pinMode(lampPin, OUTPUT);
}

void loop() {
  lit = !lit;
  digitalWrite(lampPin, lit ? HIGH : LOW);
  delay(25);
}
//= signal D12 running: low
//= signal D12 running: high
//= signal D12 running: pulse 19.9603..20.0019 Hz, duty 49.94..50.06 %
