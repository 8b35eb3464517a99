// SPI.begin takes three pins: SS goes high as an output where it was an input, MOSI and SCK become outputs.
#include <SPI.h>
void setup() {
  analogWrite(3, 60);
  analogWrite(10, 90);
  delay(10);
  SPI.begin();
}
void loop() { delay(10); }
