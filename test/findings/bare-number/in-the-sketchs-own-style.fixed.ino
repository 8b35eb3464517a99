void setup() {
    pinMode(9, OUTPUT);
    TCCR1A = (1 << COM1A1) | (1 << WGM10);
    TCCR1B = TCCR1B & ~((1 << CS12) | (1 << CS11) | (1 << CS10)) | (1 << CS11);
    OCR1A = 77;
}
void loop() {}
