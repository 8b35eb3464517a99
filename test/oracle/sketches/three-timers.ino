// Three lamps, three timers, three frequencies.
void setup() {
  pinMode(6, OUTPUT); pinMode(9, OUTPUT); pinMode(3, OUTPUT);
  TCCR0A = (1 << COM0A1) | (1 << WGM00);
  TCCR0B = (1 << CS01);
  OCR0A = 30;
  TCCR1A = (1 << COM1A1);
  TCCR1B = (1 << WGM13) | (1 << CS10);
  ICR1 = 1000; OCR1A = 300;
  TCCR2A = (1 << COM2B1) | (1 << WGM21) | (1 << WGM20);
  TCCR2B = (1 << CS22) | (1 << CS21);
  OCR2B = 90;
}
void loop() {}
