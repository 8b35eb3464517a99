#ifndef LEVELS_H
#define LEVELS_H
#define LEVEL_OF_SECOND 200
#endif
