// ports and registers by single instructions
#define PIN_HI(p, b) asm volatile("sbi %0, %1" : : "I"(_SFR_IO_ADDR(p)), "I"(b))
#define PIN_LO(p, b) asm volatile("cbi %[port], %[bit]" : : [port] "I"(_SFR_IO_ADDR(p)), [bit] "I"(b))
static inline void put(uint8_t v) {
  __asm__ __volatile__("out %0, %1\n\tnop" :: "I"(_SFR_IO_ADDR(OCR0A)), "r"(v));
}
void setup() {
  PIN_HI(DDRB, 5);
  PIN_HI(DDRD, 6);
  PIN_HI(PORTB, 5);
  PIN_LO(PORTB, 5);
  TCCR0A |= 0x80;
  put(123);
  uint8_t v = 0x81;
  asm volatile("sts %0, %1 ; timer one" : : "n"(_SFR_MEM_ADDR(TCCR1A)), "r"(v) : "memory");
  asm volatile("sbi 0x04, 1\n" "cbi 0x05, 1");
  OCR1A = 44;
}
void loop() {}
