// Vent flap: 20 ms frames made by timer 1.
#define US_TO_TICKS(us) ((us) * 2UL)
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = 1 << COM1A1 | 1 << WGM11;
  TCCR1B = 1 << WGM13 | 1 << WGM12 | 1 << CS11;
  ICR1 = US_TO_TICKS(20000) - 1;
  OCR1A = US_TO_TICKS(1500);
}
void loop() {
  OCR1A = US_TO_TICKS(1200);
  delay(100);
  OCR1A = US_TO_TICKS(1800);
  delay(100);
}
