#include <Servo.h>
// wants D9: 1 kHz
Servo s;
void setup() { s.attach(6); }
void loop() { s.write(90); analogWrite(9, 40); delay(50); }
