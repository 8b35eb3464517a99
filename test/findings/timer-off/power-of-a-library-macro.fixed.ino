#include <avr/power.h>
void setup() {
  pinMode(3, OUTPUT);
}
void loop() { analogWrite(3, 70); delay(100); }
