// for pulsewright: board atmega328p
#include <avr/io.h>
#include <util/delay.h>
// wants PB1: 12.5 kHz (the lamp)
int main()
{
    _delay_ms(10);
    for (;;) { _delay_ms(1); }
    return 0;
}
