#include <Servo.h>
Servo vent;
void setup() {
    vent.attach(4);
//= ^^^^^^^^^^^^^^ finding timer-shared "Servo.attach takes timer 1: PWM on D9 and D10 ends at this call" "D3, D5, D6 and D11"
}
void loop() {
    analogWrite(9, 100);
    analogWrite(10, 100);
    vent.write(90);
    delay(20);
}
