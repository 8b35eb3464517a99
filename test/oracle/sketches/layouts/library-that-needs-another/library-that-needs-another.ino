// SoftLamp includes TimerOne16, which the sketch does not name.
#include <SoftLamp.h>
SoftLamp left(9);
SoftLamp right(10);
void setup() {
  left.begin(1000);
  right.begin(1000);
  left.set(50);
  right.set(10 * SoftLamp::count);
}
void loop() { delay(10); }
