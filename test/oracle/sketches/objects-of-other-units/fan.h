#ifndef FAN_H
#define FAN_H
#include <Arduino.h>
typedef struct {
  uint16_t lamp;
  uint8_t pin;
} Settings;
struct Shape;
class Fan {
public:
  explicit Fan(uint16_t top);
  void level(uint8_t index);
  uint16_t top() const { return _top; }
  static uint8_t made;
private:
  uint16_t _top;
  const Shape *_shape;
};
extern Fan fan;
extern Settings settings;
extern const uint16_t LEVELS[];
extern uint8_t spare;
uint16_t scaled(const Settings &settings, uint16_t value = 40);
#endif
