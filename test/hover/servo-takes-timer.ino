#include <Servo.h>
Servo vent;
void setup() { vent.attach(4); }
//=                 ^^^^^^ hover "takes timer 1" "D9 and D10"
void loop() {}
