/* functions defined as before 1989 in a C file without the core */
#include <avr/io.h>
#define NOP() asm volatile("nop")
static unsigned char table[] = { 20, 40, 80 };
setpwm(ch, val)
  int ch;
  register unsigned char val;
{
  switch (ch) { case 0: OCR0A = val; break; default: OCR0B = val; }
}
static unsigned char *row(t, n) unsigned char t[]; { return t + n; }
int scale(x, num, den)
  int num, den, x;
{
  return (int)((long)x * num / den);
}
typedef int (*Scaler)(int, int, int);
void apply(f, v) Scaler f; int v; { OCR2B = f(v, 3, 2); }
main()
{
  DDRD = 0x68;
  TCCR0A = 0xA3; TCCR0B = 3;
  TCCR2A = 0x23; TCCR2B = 2;
  setpwm(0, *row(table, 1));
  setpwm(1, scale(50, 5, 2));
  apply(scale, 30);
  for (;;)
    NOP();
}
