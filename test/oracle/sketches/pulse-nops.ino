// Counted instructions.
#define NOP __asm__ __volatile__("nop\n\t")

void setup() {
  DDRD |= 0x10;
  noInterrupts();
}

void loop() {
  PORTD |= 0x10;
  NOP;
  NOP;
  NOP;
  PORTD &= ~0x10;
  NOP;
}
