#include "lamp.h"
Lamp lamp;
void setup() {
  lamp.begin(3);
  lamp.level(70);
}
void loop() {}
