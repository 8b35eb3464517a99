// A knob decides the duty.
const int knob = A0;
void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = (TCCR2B & 0xF8) | 3;
}
void loop() {
  analogWrite(3, analogRead(knob) / 4);
  delay(10);
}
