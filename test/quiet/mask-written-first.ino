#define CLOCK_MASK 0x07
#define CLOCK_64 0x04
void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = TCCR2B & ~CLOCK_MASK | CLOCK_64 & CLOCK_MASK;
}
void loop() { analogWrite(3, 9); }
