void setup() {
    TCCR1B = (TCCR1B & ~(_BV(CS12) | _BV(CS11) | _BV(CS10))) | _BV(CS10);
//= ^^^^^^ hover "timer 1: 31.3725 kHz" "once a pin is connected" "16 MHz / (2 · 1 · 255)"
}
void loop() { delay(1000); }
//=           ^^^^^ hover "nothing"
//= finding idle-timer
