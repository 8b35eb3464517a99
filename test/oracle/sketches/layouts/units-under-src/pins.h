#pragma once
const int FAN_PIN = 10;
#define TOP_OF_FAN 639
