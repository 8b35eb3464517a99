#include "pump.h"
namespace lamp { static const uint8_t LEVEL = 99; }
namespace pump {
uint8_t started;
static uint8_t offset = 3;
void begin() { started++; detail::put(lamp::LEVEL); }
void set(LEVELS level) { detail::put(uint8_t(level) + offset); }
}
void pump::detail::put(uint8_t value) { analogWrite(PIN, value); }
