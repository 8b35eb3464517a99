#ifndef LEVELS_H
#define LEVELS_H
#define LEVEL_OF_FIRST 20
#endif
