// A display on parallel lines drives the pins it is made with, and a stepper motor its coils; the lamp has a pin of its own.
#include <LiquidCrystal.h>
#include <Stepper.h>
LiquidCrystal shown(12, 11, 5, 4, 3, 2);
Stepper vane(200, 6, 7, 8, 9);

void setup() {
  shown.begin(16, 2);
  vane.setSpeed(30);
}
void loop() {
  shown.print(analogRead(A0));
  vane.step(5);
  analogWrite(10, 90);
  delay(100);
}
//= signal D3 running: low
//= signal D3 running: high
//= signal D3 running: pulse
//= signal D5 running: low
//= signal D5 running: high
//= signal D5 running: pulse
//= signal D9 running: low
//= signal D9 running: high
//= signal D9 running: pulse
//= signal D10 running: pulse 490.196 Hz, duty 35.3 %
//= signal D11 running: low
//= signal D11 running: high
//= signal D11 running: pulse
