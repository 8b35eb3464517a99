#include "curve.h"
#include "../../pins.h"
#include "table.inc"
unsigned curve(int percent) { return (unsigned long)TOP_OF_FAN * table[percent / 20] / 100; }
