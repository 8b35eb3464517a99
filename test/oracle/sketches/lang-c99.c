/* C as C99 and gcc have it: designated initialisers, compound literals, a nested function */
#include <avr/io.h>
#include <stdint.h>
#include <stdbool.h>
enum { LAMP, FAN, PUMP, COUNT };
struct out { volatile uint8_t *reg; uint8_t level; _Bool on; };
static const struct out outs[COUNT] = {
	[FAN] = { .reg = &OCR0B, .level = 80, .on = true },
	[LAMP] = { &OCR0A, .on = false, .level = 200 },
	[PUMP] = { .level = 33, .reg = &OCR2B, .on = 1 },
};
static inline uint8_t total(const uint8_t *restrict p, uint8_t n) { uint8_t s = 0; while (n) s += p[--n]; return s; }
static uint8_t gamma_table[] = { [0 ... 3] = 10, [4] = 99, [6] = 7 };
static void put(struct out o) { *o.reg = o.on ? o.level : o.level / 4; }
int main(void)
{
	uint8_t twice(uint8_t v) { return v * 2; }
	DDRD = 0x68; DDRB = 0x08;
	TCCR0A = 0xA3; TCCR0B = 2; TCCR2A = 0xA3; TCCR2B = 2;
	for (int i = LAMP; i < COUNT; i++) put(outs[i]);
	put((struct out){ &OCR2A, .level = total((uint8_t[]){ 1, 2, 3 }, 3), .on = true });
	for (;;) ;
}
