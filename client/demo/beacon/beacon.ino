// A beacon on the jetty: the lamp is dimmed by day, a servo turns its shade.
// wants D10: 490 Hz +-5 %
#include <Servo.h>

const int beaconLamp = 10;
const int shade = 6;
Servo turner;

void setup() {
  pinMode(beaconLamp, OUTPUT);
  turner.attach(shade);
}

void loop() {
  analogWrite(beaconLamp, 90);
  turner.write(40);
  delay(700);
  turner.write(140);
  delay(700);
}
