#pragma once
#include <stdint.h>
#include <avr/io.h>
#ifdef __cplusplus
extern "C" {
#endif
extern volatile uint8_t beats;
void beat_start(uint16_t top);
#ifdef __cplusplus
}
#endif
