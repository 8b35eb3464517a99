// A namespace is opened in several files; its constants are each file's own, its functions and variables are shared.
#include "pump.h"
using namespace pump;
namespace lamp { static const uint8_t LEVEL = 12; }
void setup() {
  begin();
  set(LEVELS::HALF);
  analogWrite(5, lamp::LEVEL + ::pump::started);
}
void loop() {
  pump::set(pump::QUARTER);
  delay(5);
}
