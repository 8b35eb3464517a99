// A SoftwareSerial on two pins with compare units: the sending one rests high, the receiving one is pulled up.
#include <SoftwareSerial.h>
SoftwareSerial radio(10, 11);
void setup() {
  radio.begin(9600);
  analogWrite(5, 100);
}
void loop() {
  radio.println("lamp");
  delay(20);
}
