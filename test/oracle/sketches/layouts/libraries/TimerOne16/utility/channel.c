#include <avr/io.h>
#include "channel.h"
static const struct channel channels[] = {
  {.pin = 9, .bits = 1 << COM1A1, .compare = &OCR1A},
  {.pin = 10, .bits = 1 << COM1B1, .compare = &OCR1B},
};
const struct channel *channel_of(uint8_t pin)
{
  for (unsigned i = 0; i < sizeof channels / sizeof channels[0]; i++)
    if (channels[i].pin == pin) return &channels[i];
  return 0;
}
