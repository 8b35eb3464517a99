#ifndef SoftLamp_h
#define SoftLamp_h
#include <Arduino.h>
#include <TimerOne16.h>
#include "parts/curve.h"

class SoftLamp {
public:
  SoftLamp(uint8_t pin) : _pin(pin) { count++; }
  void begin(unsigned long hz);
  void set(uint8_t percent);
  static uint8_t count;
private:
  uint8_t _pin;
  uint16_t _top = 0;
};
#endif
