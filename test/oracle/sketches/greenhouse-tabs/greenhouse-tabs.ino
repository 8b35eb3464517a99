// Several tabs: settings in a header, the fan in a tab of its own.
#include "settings.h"
void setup() {
  beginFan();
  setFan(FAN_START);
}
void loop() {
  delay(10);
}
