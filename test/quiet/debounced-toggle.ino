const int button = 2, lamp = 13;
int state = HIGH, reading, previous = LOW;
unsigned long last = 0, debounce = 50;
void setup() {
  pinMode(button, INPUT);
  pinMode(lamp, OUTPUT);
}
void loop() {
  reading = digitalRead(button);
  if (reading == HIGH && previous == LOW && millis() - last > debounce) {
    state = state == HIGH ? LOW : HIGH;
    last = millis();
  }
  digitalWrite(lamp, state);
  previous = reading;
}
