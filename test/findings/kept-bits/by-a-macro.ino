#define sbi(r, b) ((r) |= _BV(b))
#define cbi(r, b) ((r) &= ~_BV(b))
void setup() {
  pinMode(10, OUTPUT);
  sbi(TCCR1B, CS12);
//= finding kept-bits "TCCR1B still holds CS11 and CS10, left by the core's init, so the timer counts pulses at pin PD5 and stands st"
//= fix "Clear CS1 before setting it"
}
void loop() { analogWrite(10, 50); }
