// The buzzer takes timer 2: pin 3 loses its PWM while it sounds.
void setup() {
  analogWrite(3, 90);
  tone(8, 1000);
  delay(20);
  noTone(8);
}
void loop() {}
