#pragma once
#include <stdint.h>
class Blend {
public:
  struct Part { uint8_t amount; };
  Blend(uint8_t warm, uint8_t cold);
  Blend &operator+=(const Part &part);
  explicit operator uint8_t() const;
  friend uint8_t sum(const Blend &blend);
  friend bool operator==(const Blend &left, const Blend &right);
private:
  uint8_t _warm, _cold;
};
uint8_t sum(const Blend &blend);
bool operator==(const Blend &left, const Blend &right);
