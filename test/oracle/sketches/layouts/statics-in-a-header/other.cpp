#include "gamma.h"
void other() {
  gammaShift++;
  analogWrite(5, corrected(3));
}
