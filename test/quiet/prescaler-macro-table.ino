// Divisors by name, as headers of small projects have them.
#define TIMER2_OFF 0
#define TIMER2_DIV1 _BV(CS20)
#define TIMER2_DIV8 _BV(CS21)
#define TIMER2_DIV32 (_BV(CS21) | _BV(CS20))
#define TIMER2_MASK (_BV(CS22) | _BV(CS21) | _BV(CS20))
#define SET_TIMER2_CLOCK(d) (TCCR2B = (TCCR2B & ~TIMER2_MASK) | (d))

void setup() {
  pinMode(3, OUTPUT);
  SET_TIMER2_CLOCK(TIMER2_DIV8);
}

void loop() {
  analogWrite(3, 64);
  delay(500);
  analogWrite(3, 192);
  delay(500);
}
