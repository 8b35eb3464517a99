#include <Servo.h>
Servo vent;
void setup() {
  vent.attach(6);
  pinMode(3, OUTPUT);
}
void loop() {
  int knob = analogRead(A0);
  vent.write(map(knob, 0, 1023, 0, 180));
  analogWrite(3, knob / 4);
  delay(15);
}
