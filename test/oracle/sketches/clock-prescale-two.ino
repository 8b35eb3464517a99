#include <avr/power.h>
void setup() {
  clock_prescale_set(clock_div_2);
  pinMode(9, OUTPUT);
  analogWrite(9, 64);
}
void loop() {}
