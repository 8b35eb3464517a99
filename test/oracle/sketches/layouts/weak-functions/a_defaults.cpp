#include "plan.h"
__attribute__((weak)) uint8_t planned() { return 1; }
uint8_t fallback() __attribute__((weak));
uint8_t fallback() { return 90; }
