#define CLOCK 0x02
void setup() {
    pinMode(3, OUTPUT);
    byte mode = digitalRead(4) ? 1 : 2;
    TCCR2B = TCCR2B & 0xF8 | CLOCK;
    TCCR2B = TCCR2B & ~0x07 | mode & 0x07;
    TCCR2B = (TCCR2B & 0xF8) | (CLOCK & 0x07);
    PORTB = PORTB & 0xF0 | PIND >> 4 & 0x0F;
}
void loop() { analogWrite(3, 60); }
