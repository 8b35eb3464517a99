// A function given to a library to call back may come at any time: what it leaves counts.
#include <Wire.h>
volatile uint8_t level = 30;
void received(int count) { level = count == 1 ? 60 : 90; }
void setup() {
  Wire.begin(8);
  Wire.onReceive(received);
}
void loop() {
  analogWrite(3, level);
  delay(20);
}
//= signal D3 running: pulse 490.196 Hz, duty 11.76..35.3 %
