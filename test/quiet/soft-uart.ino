// Sends a byte at 9600 baud on D7 by a compare interrupt of timer 2.
volatile byte sending, bits;

ISR(TIMER2_COMPA_vect) {
  if (bits == 0) return;
  if (bits == 10) PORTD &= ~_BV(PD7);
  else if (bits > 1) {
    if (sending & 1) PORTD |= _BV(PD7); else PORTD &= ~_BV(PD7);
    sending >>= 1;
  } else PORTD |= _BV(PD7);
  bits--;
}

void sendByte(byte b) {
  while (bits) ;
  noInterrupts();
  sending = b;
  bits = 10;
  interrupts();
}

void setup() {
  pinMode(7, OUTPUT);
  digitalWrite(7, HIGH);
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS21);
  OCR2A = F_CPU / 8 / 9600 - 1;
  TIMSK2 = _BV(OCIE2A);
}

void loop() {
  sendByte('H');
  sendByte('i');
  delay(1000);
}
