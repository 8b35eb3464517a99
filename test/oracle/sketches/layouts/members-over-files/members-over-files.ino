// A class whose members stand in two files, with a nested type, operators and a friend.
#include "blend.h"
void setup() {
  Blend blend(10, 40);
  blend += Blend::Part{3};
  analogWrite(3, sum(blend));
  analogWrite(5, static_cast<uint8_t>(blend));
  analogWrite(6, (blend == Blend(13, 40)) ? 77 : 7);
}
void loop() { delay(5); }
