// The whole chip eight times slower.
#include <avr/power.h>

void setup() {
  clock_prescale_set(clock_div_8);
  pinMode(8, OUTPUT);
}

void loop() {
  digitalWrite(8, HIGH);
  delay(2);
  digitalWrite(8, LOW);
  delay(2);
}
