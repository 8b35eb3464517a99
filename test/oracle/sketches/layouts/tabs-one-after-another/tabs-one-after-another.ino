// The tabs are one text: the main one first, then by name. Functions of later tabs are known before, macros and types are not.
#define CLOCK_BITS (_BV(CS11))
struct Span { uint16_t top; uint16_t high; };
Span warm = {1999, 400};

void setup() {
  startVent();
  setSpan(warm);
}

void loop() {
  delay(5);
  setSpan(widened(warm, 3));
  delay(5);
}
