#define sbi(r, b) ((r) |= _BV(b))
#define cbi(r, b) ((r) &= ~_BV(b))
void setup() {
  pinMode(10, OUTPUT);
  TCCR1B = (TCCR1B & ~(_BV(CS12) | _BV(CS11) | _BV(CS10))) | _BV(CS12);
}
void loop() { analogWrite(10, 50); }
