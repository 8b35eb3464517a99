#include <avr/power.h>
void setup() {
  power_timer4_disable();
  analogWrite(6, 100);
  analogWrite(44, 100);
}
void loop() {}
