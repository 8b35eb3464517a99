// for pulsewright: board atmega328p
#include <avr/io.h>
// wants PD3: 10 kHz
int main(void) {
	DDRD |= (1 << PD3);
	TCCR2B = 0;
	TCCR2A = 0;
	TCNT2 = 0;
	OCR2A = 199;
	OCR2B = 156;
	TCCR2A = (1 << COM2B1) | (1 << WGM21) | (1 << WGM20);
	TCCR2B = (1 << WGM22) | (1 << CS21);  // 10 kHz on PD3: fast PWM, prescaler 8, TOP 199
	while (1) {
	}
}
