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
//= signal D8 running: high
//= signal D8 running: low
//= signal D8 running: pulse 30.5876..31.2867 Hz, duty 49.36..50.58 %
