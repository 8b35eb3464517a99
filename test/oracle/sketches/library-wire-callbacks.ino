// What Wire calls back may come at any time, here never.
#include <Wire.h>
volatile uint8_t level = 30;
void received(int count) {
  while (count-- > 0) level = Wire.read();
}
void requested() { Wire.write(level); }
void setup() {
  Wire.begin(8);
  Wire.onReceive(received);
  Wire.onRequest(requested);
}
void loop() {
  analogWrite(3, level);
  delay(20);
}
