#include <SoftLamp.h>
SoftLamp lamp(9);
void setup() { lamp.begin(2000); lamp.set(20); }
void loop() {}
