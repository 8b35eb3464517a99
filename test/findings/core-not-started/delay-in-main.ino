int main() {
    DDRB = _BV(DDB5);
    for (;;) {
        PINB = _BV(PINB5);
        delay(500);
//=     ^^^^^^^^^^ finding core-not-started "delay never ends"
    }
}
