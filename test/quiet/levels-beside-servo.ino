#include <Servo.h>
Servo flap;
void setup() {
  flap.attach(4);
  pinMode(10, OUTPUT);
  digitalWrite(10, HIGH);
}
void loop() { flap.writeMicroseconds(1500); delay(20); }
