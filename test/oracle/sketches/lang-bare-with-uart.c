/* no core at all: registers, uart, a table of speeds and a main that never ends */
#include <avr/io.h>
#include <avr/interrupt.h>
#include <util/delay.h>
#include <stdint.h>

#ifndef F_CPU
#define F_CPU 16000000UL
#endif
#define BAUD 9600
#define UBRR_VAL ((F_CPU / 16 / BAUD) - 1)

static const uint8_t speeds[4] = { 0x20, 0x50, 0x90, 0xF0 };
static uint8_t current;

static void uart_init(void)
{
	UBRR0H = (unsigned char)(UBRR_VAL >> 8);
	UBRR0L = (unsigned char)UBRR_VAL;
	UCSR0B = (1 << RXEN0) | (1 << TXEN0);
	UCSR0C = (1 << UCSZ01) | (1 << UCSZ00);
}

static void pwm_init(void)
{
	DDRB |= 1 << PB3;
	TCCR2A = (1 << COM2A1) | (1 << WGM20);
	TCCR2B = (1 << CS21);
}

static void set_speed(uint8_t idx)
{
	current = idx & 3;
	OCR2A = speeds[current];
}

int main(void)
{
	uart_init();
	pwm_init();
	set_speed(1);
	for (;;) {
		_delay_ms(20);
		set_speed(current + 1);
	}
	return 0;
}
