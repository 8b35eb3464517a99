#ifndef SETTINGS_H
#define SETTINGS_H
#define FAN_PIN 9
#define FAN_TOP 320
#define FAN_START 40
#endif
