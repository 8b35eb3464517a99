#define FAN_PIN 9
#define FAN_TOP ((F_CPU / 25000UL) / 2)
#define FAN_SET(p) (OCR1A = (uint16_t)((uint32_t)(p) * FAN_TOP / 100))
void setup() {
  pinMode(FAN_PIN, OUTPUT);
  TCCR1A = (1 << COM1A1) | (1 << WGM11);
  TCCR1B = (1 << WGM13) | (1 << CS10);
  ICR1 = FAN_TOP;
  FAN_SET(40);
}
void loop() {}
