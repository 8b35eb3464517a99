// Start-up works on timer 1 for a millisecond and more: its state never stands, but its pins are undriven all the while.
byte nearest(long pace, uint16_t &top) {
  uint16_t table[] = {1, 2, 5, 9, 12};
  for (byte k = 0; k < 5; k++) {
    long counts = table[k] / pace;
    top = counts;
  }
  return 5;
}

void setup() {
  byte rounds = 0;
  do {
    rounds++;
    uint16_t top;
    TCCR1B = nearest(3, top);
  } while (rounds < 6);
  TCCR1A = _BV(COM1A1) | _BV(WGM10);
  TCCR1B = _BV(CS11);
  OCR1A = 90;
  pinMode(9, OUTPUT);
}

void loop() { delay(20); }
