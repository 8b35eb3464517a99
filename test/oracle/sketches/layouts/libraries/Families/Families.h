#ifndef FAMILIES_H
#define FAMILIES_H
#if defined(__AVR__)
#include "avr/timer.h"
#elif defined(ARDUINO_ARCH_SAMD)
#include "samd/timer.h"
#else
#error "this family is not known"
#endif
#endif
