#pragma once
#include "parts/curve.h"
void fanBegin(int pin);
void fanSpeed(int percent);
