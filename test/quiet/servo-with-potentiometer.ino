#include <Servo.h>

Servo vent;
int potpin = 0;
int val;

void setup() {
  vent.attach(9);
}

void loop() {
  val = analogRead(potpin);
  val = map(val, 0, 1023, 0, 180);
  vent.write(val);
  delay(15);
}
