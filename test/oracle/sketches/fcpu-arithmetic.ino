#define HEATER_HZ 120UL
#define PRESCALE 64UL
const uint16_t heaterTop = F_CPU / PRESCALE / HEATER_HZ - 1;
void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = _BV(WGM10) | _BV(WGM11) | _BV(COM1B1);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11) | _BV(CS10);
  OCR1A = heaterTop;
  OCR1B = heaterTop * 3 / 10;
}
void loop() {}
