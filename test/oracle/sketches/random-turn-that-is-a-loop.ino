// A turn that is nothing but a loop: the jump back to its start is no new turn.
byte count = 4;
void setup() {}
void loop() {
  do OCR2B = count--;
  while (count);
}
