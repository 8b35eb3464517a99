// One object for all, made when it is first asked for, in a file of its own.
#include "panel.h"
void setup() { Panel::only().brightness(70); }
void loop() {
  Panel::only().brightness(Panel::only().last() + Panel::made);
  delay(5);
}
