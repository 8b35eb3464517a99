#include "stage.h"
uint16_t trail = 1;
static const uint8_t TWO = 2;
Stage second(4, &TWO);
