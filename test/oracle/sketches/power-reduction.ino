// Timer 1 switched off to save power, and forgotten.
#include <avr/power.h>
void setup() {
  power_timer1_disable();
  pinMode(9, OUTPUT);
  pinMode(3, OUTPUT);
  analogWrite(9, 100);
  analogWrite(3, 100);
}
void loop() {}
