#pragma once
#include <Arduino.h>
// One for each file that includes it.
static uint8_t tally = 1;
