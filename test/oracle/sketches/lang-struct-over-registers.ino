// a struct laid over timer 1
struct Timer16 {
  volatile uint8_t a, b, c, reserved;
  volatile uint16_t tcnt, icr, ocra, ocrb;
};
#define T1 (*reinterpret_cast<Timer16 *>(0x80))
static_assert(sizeof(Timer16) == 12, "layout");
void setup() {
  T1.a = 0xA2;
  T1.b = 0x11;
  T1.icr = 320;
  T1.ocra = T1.ocrb = 80;
  T1.ocrb *= 2;
  DDRB |= 6;
}
void loop() {}
