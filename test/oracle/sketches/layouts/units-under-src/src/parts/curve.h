#ifndef CURVE_H
#define CURVE_H
unsigned curve(int percent);
#endif
