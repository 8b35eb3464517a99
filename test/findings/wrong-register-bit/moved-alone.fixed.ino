void setup() {
    TCCR2A |= (1 << WGM21);
}
void loop() { analogWrite(3, 60); }
