#pragma once
#include <stdint.h>
uint8_t curve(uint8_t percent);
