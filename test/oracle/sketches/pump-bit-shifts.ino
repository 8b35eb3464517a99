// Pump driver on pin 10.
#define PUMP_PIN 10
void setup() {
  pinMode(PUMP_PIN, OUTPUT);
  TCCR1A = (1 << COM1B1) | (1 << WGM11);
  TCCR1B = (1 << WGM13) | (1 << WGM12) | (1 << CS11);
  ICR1 = 39999;
  OCR1B = 3000;
}
void loop() {
}
