#ifndef DRIVER_H_
#define DRIVER_H_
#include <avr/io.h>
#ifdef __cplusplus
extern "C" {
#endif
#define DRIVER_CONCAT(a, b) a##b
#define DRIVER_REG(name, n) DRIVER_CONCAT(name, n)
#define DRIVER_TIMER 1
typedef enum { DRIVER_A, DRIVER_B } driver_channel;
typedef union {
  uint16_t word;
  struct { uint8_t low, high; } bytes;
} driver_value;
typedef struct driver_config {
  driver_value top;
  unsigned clock : 3;
} driver_config;
extern const driver_config driver_default;
void driver_init(const driver_config *config);
void driver_set(driver_channel channel, uint16_t value);
#ifdef __cplusplus
}
#endif
#endif
