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
