// commands as text, a table in flash with function pointers
#include <avr/pgmspace.h>
typedef void (*Handler)(int);
void setA(int v) { OCR0A = v; }
void setB(int v) { OCR0B = v; }
struct Command { char key; Handler run; };
const Command commands[] PROGMEM = { { 'a', setA }, { 'b', setB } };
void dispatch(const char *line) {
  int v = 0;
  for (const char *p = line + 1; *p >= '0' && *p <= '9'; ++p) v = v * 10 + (*p - '0');
  for (uint8_t i = 0; i < sizeof(commands) / sizeof(Command); i++) {
    Command c;
    memcpy_P(&c, &commands[i], sizeof c);
    if (c.key == line[0]) { c.run(v); return; }
  }
}
void setup() {
  DDRD |= 0x60; TCCR0A |= 0xA0;
  dispatch("a120");
  dispatch("b33x");
  dispatch("c1");
}
void loop() {}
