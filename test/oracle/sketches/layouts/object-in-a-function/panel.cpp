#include <Arduino.h>
#include "panel.h"
uint8_t Panel::made = 4;
Panel::Panel() { made++; pinMode(6, OUTPUT); }
Panel &Panel::only() {
  static Panel panel;
  return panel;
}
void Panel::brightness(uint8_t level) {
  _last = level;
  analogWrite(6, level);
}
