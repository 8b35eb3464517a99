#include "blend.h"
Blend &Blend::operator+=(const Part &part) { _warm += part.amount; return *this; }
Blend::operator uint8_t() const { return _warm * 2; }
bool operator==(const Blend &left, const Blend &right) { return left._warm == right._warm && left._cold == right._cold; }
