// pins described by one macro of several parts, taken apart by other macros
#define LAMP  D, 6
#define PUMP  D, 3
#define VENT  B, 1
#define CAT(a, b) a##b
#define PORT_(p, b) CAT(PORT, p)
#define DDR_(p, b)  CAT(DDR, p)
#define BIT_(p, b)  (b)
#define OUT(x)  (DDR_(x) |= _BV(BIT_(x)))
#define HI(x)   (PORT_(x) |= _BV(BIT_(x)))
#define LO(x)   (PORT_(x) &= ~_BV(BIT_(x)))
#define PORT_OF(x) PORT_(x)
#define EXPAND(x) x
#undef OUT
#define OUT(...)  EXPAND(DDR_(__VA_ARGS__)) |= _BV(EXPAND(BIT_(__VA_ARGS__)))
#undef HI
#define HI(...)  EXPAND(PORT_(__VA_ARGS__)) |= _BV(EXPAND(BIT_(__VA_ARGS__)))
void setup() {
  OUT(LAMP); OUT(PUMP); OUT(VENT);
  HI(VENT);
  TCCR0A = _BV(COM0A1) | _BV(WGM01) | _BV(WGM00);
  OCR0A = 77;
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  OCR2B = 33;
}
void loop() {}
