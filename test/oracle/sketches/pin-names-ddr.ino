#define FAN_DDR DDRB
#define FAN_BIT PB2
void setup() {
  FAN_DDR |= (1 << FAN_BIT);
  TCCR1A = (1 << COM1B1) | (1 << WGM10);
  TCCR1B = (1 << WGM12) | (1 << CS12);
  OCR1B = 25;
}
void loop() {}
