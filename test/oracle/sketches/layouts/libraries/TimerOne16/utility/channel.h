#ifdef __cplusplus
extern "C" {
#endif
#include <stdint.h>
struct channel {
  uint8_t pin;
  uint8_t bits;
  volatile uint16_t *compare;
};
const struct channel *channel_of(uint8_t pin);
#ifdef __cplusplus
}
#endif
