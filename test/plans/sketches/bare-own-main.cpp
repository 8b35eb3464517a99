// for pulsewright: board atmega328p
#include <avr/io.h>
// wants PD3: 10 kHz
int main(void) {
	DDRD |= (1 << PD3);
	TCCR2A = (1 << COM2B1) | (1 << WGM21) | (1 << WGM20);
	TCCR2B = (1 << CS21);
	OCR2B = 200;
	while (1) {
	}
}
