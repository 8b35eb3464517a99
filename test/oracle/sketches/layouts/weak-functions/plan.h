#pragma once
#include <Arduino.h>
uint8_t planned();
uint8_t fallback();
