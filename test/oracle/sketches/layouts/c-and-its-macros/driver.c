#include "driver.h"
const driver_config driver_default = { .top = { .word = 0x03FF }, .clock = 2 };
static volatile uint16_t *const compare[] = { &OCR1A, &OCR1B };
void driver_init(const driver_config *config)
{
  DDRB |= 1 << 2;
  DRIVER_REG(ICR, DRIVER_TIMER) = (config->top.bytes.high << 8) | config->top.bytes.low;
  TCCR1A = 1 << COM1B1 | 1 << WGM11;
  TCCR1B = 1 << WGM13 | 1 << WGM12 | config->clock;
  ICR1 = config->top.word;
}
void driver_set(driver_channel channel, uint16_t value) { *compare[channel] = value; }
