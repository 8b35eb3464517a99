#include "blend.h"
Blend::Blend(uint8_t warm, uint8_t cold) : _warm(warm), _cold(cold) {}
uint8_t sum(const Blend &blend) { return blend._warm + blend._cold; }
