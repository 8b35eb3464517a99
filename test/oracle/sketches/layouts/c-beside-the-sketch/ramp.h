#ifndef RAMP_H
#define RAMP_H
#ifdef __cplusplus
extern "C" {
#endif
#include <stdint.h>
void ramp_begin(uint8_t start);
void ramp_to(uint8_t end);
void ramp_step(void);
#ifdef __cplusplus
int old_style(int, int);
}
#else
int old_style();
#endif
#endif
