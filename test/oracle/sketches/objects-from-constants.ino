// Objects made from constants and calls: to the parser, declarations of functions.
struct Select { uint8_t pin; Select(uint8_t p) : pin(p) { PORTB |= 1 << p; } ~Select() { PORTB &= ~(1 << pin); } };
static const int two = 2;
int one() { return 1; }
byte chan = 3;
Select outer(two);
Select third(one());
void setup() {
    OCR2A = PORTB;
    { Select s(two); OCR2B = PORTB; }
    { Select s(one()); OCR0B = PORTB; }
    { Select s(chan); OCR0A = PORTB; }
    { byte local = 5; Select s(local); OCR1BL = PORTB; }
}
void loop() {}
