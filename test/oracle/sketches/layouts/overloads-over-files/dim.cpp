#include <Arduino.h>
static int scaled(long value) { return value * 255 / 100; }
void dim(int percent) { OCR2B = scaled(percent); }
void dim(float share) { analogWrite(6, share * 200); }
void dim(uint8_t raw) { OCR2B = raw; }
