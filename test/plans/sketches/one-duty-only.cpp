// for pulsewright: board atmega328p
#include <avr/io.h>
// wants PD6: 10 kHz
int main(void) {
	DDRD |= (1 << PD6);
	TCCR0A = (1 << COM0A1) | (1 << WGM01) | (1 << WGM00);
	TCCR0B = (1 << CS01);
	OCR0A = 200;
	while (1) {
	}
}
