#include "plan.h"
uint8_t planned() { return 44; }
