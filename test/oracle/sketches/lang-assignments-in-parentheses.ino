// lists with commas in parentheses that begin with an assignment, as in macros that stand for expressions
#define PUT(reg, v) (reg = (v), (v))
#define TURN(reg, by) (reg <<= by, reg >= 64 ? (reg = 8, true) : false)
uint8_t next(void) { static uint8_t i; return "\012\024\036"[i++]; }
void setup() {
  uint8_t c, d, sum = 0;
  DDRD |= 0x68; TCCR2A = 0x23; TCCR0A |= 0xA0;
  OCR2B = (c = 7, d = 8, c * d);
  while ((c = next(), c) != 0) sum += c;
  for (d = 0; (d += 3, d < 20); ) if ((c = d & 1, c == 0)) sum += (c = 2, c);
  OCR0A = PUT(OCR0B, sum) + 1;
  do d >>= 1; while (c = d, c > 4);
  OCR0B += TURN(d, 4) ? d : (int)(c = 3, c + 1);
}
void loop() {}
