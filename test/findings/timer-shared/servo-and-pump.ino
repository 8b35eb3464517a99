#include <Servo.h>
const int pumpPin = 10;
Servo flap;
void openFlap(int angle) { flap.write(angle); }
void setup() {
  pinMode(pumpPin, OUTPUT);
  flap.attach(7);
//= finding timer-shared "Servo.attach takes timer 1: PWM on D10 ends at this call"
}
void loop() {
  for (int level = 0; level < 256; level++) {
    analogWrite(pumpPin, level);
    delay(10);
  }
  openFlap(90);
}
