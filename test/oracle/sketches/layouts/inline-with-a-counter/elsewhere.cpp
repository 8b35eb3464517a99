#include "steps.h"
void elsewhere() {
  shared();
  apart();
  Box<uint8_t>::raise(stepped<3>());
  analogWrite(6, Box<uint8_t>::value + 10);
}
