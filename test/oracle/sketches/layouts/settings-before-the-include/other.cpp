#include "fan_setup.h"
int fanTopElsewhere() { return FAN_TOP_HERE; }
