// registers pasted from a number that is a macro itself, blocks as macros in an if
#define TC(n, r) TCCR##n##r
#define OC(n, r) OCR##n##r
#define COMBITS(n, r) (_BV(COM##n##r##1))
#define PWM_BEGIN(n) do { TC(n, A) = _BV(WGM##n##0); TC(n, B) = _BV(CS##n##1); } while (0)
#define PWM_SET(n, r, v) do { \
    OC(n, r) = (v);            \
    TC(n, A) |= COMBITS(n, r); \
  } while (0)
#define WHICH 2
#define PWM_BEGIN_(n) PWM_BEGIN(n)
void setup() {
  DDRB |= 0x0E; DDRD |= 0x08;
  PWM_BEGIN(1);
  PWM_BEGIN_(WHICH);
  if (F_CPU > 8000000UL)
    PWM_SET(1, A, 50);
  else
    PWM_SET(1, A, 25);
  PWM_SET(1, B, 70);
  PWM_SET(2, B, 200);
}
void loop() {}
