// A propagator's heater by a solid-state relay: windows of two seconds, made with millis.
const int relayPin = 6;
const unsigned long window = 2000;
unsigned long windowStart;

void setup() {
  windowStart = millis();
  pinMode(relayPin, OUTPUT);
}

void loop() {
  int reading = analogRead(A1);
  unsigned long on = reading < 300 ? 2000 : (reading > 500 ? 0 : (500UL - reading) * 10);
  if (millis() - windowStart > window) windowStart += window;
  digitalWrite(relayPin, millis() - windowStart < on ? HIGH : LOW);
}
