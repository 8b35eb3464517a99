#pragma once
#include <Arduino.h>
inline uint8_t shared() {
  static uint8_t count = 10;
  return count += 10;
}
static uint8_t apart() {
  static uint8_t count = 100;
  return count += 10;
}
template <uint8_t STEP> uint8_t stepped() {
  static uint8_t at = 0;
  return at += STEP;
}
template <class T> struct Box {
  static T value;
  static void raise(T by) { value += by; }
};
template <class T> T Box<T>::value = 1;
void elsewhere();
