#include <Servo.h>
Servo vent;
int pos = 0;
void setup() { vent.attach(9); }
void loop() {
  for (pos = 0; pos <= 180; pos += 1) {
    vent.write(pos);
    delay(15);
  }
}
