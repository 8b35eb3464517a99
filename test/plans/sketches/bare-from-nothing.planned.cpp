// for pulsewright: board atmega328p
#include <avr/io.h>
#include <util/delay.h>
// wants PB1: 12.5 kHz (the lamp)
int main()
{
    _delay_ms(10);
    TCCR1B = 0;
    TCCR1A = 0;
    TCNT1 = 0;
    OCR1A = 640;
    TCCR1B = _BV(WGM13) | _BV(WGM12);
    ICR1 = 1279;
    TCCR1A = _BV(COM1A1) | _BV(WGM11);
    TCCR1B |= _BV(CS10);  // 12.5 kHz on PB1: fast PWM, prescaler 1, TOP 1279
    DDRB |= _BV(DDB1);
    for (;;) { _delay_ms(1); }
    return 0;
}
