// Assembly that works on its operands alone.
uint8_t twice(uint8_t v) {
  asm volatile("lsl %0" "\n\t" : "+r"(v));
  return v;
}
void setup() {
  asm volatile ("nop");
  __asm__ __volatile__ ("nop\n\t" "nop\n\t");
  asm("cli");
  TCCR1A = 0x82;
  TCCR1B = 0x1A;
  ICR1 = 3999;
  OCR1A = 1000;
  asm volatile("sei" ::: "memory");
  DDRB |= 2;
  uint8_t x = 3, s;
  asm volatile("ldi %0, 7\n" : "=d"(x));
  asm volatile("in %0, __SREG__" : "=r"(s));
  OCR2A = x + 1;
  OCR2B = twice(4);
}
void loop() {
  asm volatile("1: dec %0\n\t brne 1b" :: "d"(5));
}
