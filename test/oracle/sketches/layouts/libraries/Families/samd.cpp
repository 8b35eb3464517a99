#if defined(ARDUINO_ARCH_SAMD)
void families_start() { TC3->COUNT16.CTRLA.reg = 1; }
#endif
