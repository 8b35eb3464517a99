void setup() {
    pinMode(3, OUTPUT);
    TCCR2B = (1 << CS21) | (1 << CS20);
}
void loop() { analogWrite(3, 60); }
