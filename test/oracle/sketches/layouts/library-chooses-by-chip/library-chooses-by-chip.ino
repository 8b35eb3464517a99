// A library that has a file for each family of chips; the others leave nothing behind.
#include <Families.h>
void setup() { families::start(700); }
void loop() { delay(5); }
