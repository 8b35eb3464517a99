#ifndef SKETCH_CURVE_H
#define SKETCH_CURVE_H
inline int curveOfSketch(int value) { return value / 2; }
#endif
