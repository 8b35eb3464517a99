// Working out the prescaler of a tone takes its time: four of them let the state before stand for a millisecond.
void setup() {
  TCCR0B = 0;
  for (uint8_t i = 0; i < 5; i++) tone(9, 31);
  OCR0B = 1;
}
void loop() {}
