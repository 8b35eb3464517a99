#pragma once
#include <Arduino.h>
typedef void (*Action)(uint8_t pin);
class Output {
public:
  explicit Output(uint8_t pin) : pin(pin), next(nullptr) {}
  virtual void apply(uint8_t level) = 0;
  const uint8_t pin;
  Output *next;
};
Output &plain();
void attach(Output *output);
void level(uint8_t level);
void runAll(const Action *actions, uint8_t which);
