// The library's object takes its pins: the sending one rests high and is switched bit by bit, the receiving one is pulled up.
#include <SoftwareSerial.h>
SoftwareSerial radio = SoftwareSerial(10, 11);
void setup() {
  radio.begin(9600);
  analogWrite(5, 100);
}
void loop() {
  radio.println("lamp");
  delay(20);
}
//= signal D5 running: pulse 976.563 Hz, duty 39.45 %
//= signal D11 running: high
//= signal D11 running: pulse not timed
//= signal D11 setup: high
