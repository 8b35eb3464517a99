#include <avr/power.h>
void setup() {
  power_timer2_disable();
//= finding timer-off "Timer 2 is switched off (PRTIM2), so D3 stands still"
//= fix "Leave timer 2 switched on"
  pinMode(3, OUTPUT);
}
void loop() { analogWrite(3, 70); delay(100); }
