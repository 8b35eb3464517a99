// A probe lights its lamp while it measures and sends what it found over a two-wire bus, handled by registers alone:
// what the bus's registers hold tells no ways of the lamp apart.
volatile unsigned long beats = 0;
ISR(TIMER2_OVF_vect) { beats++; }

bool answered() {
  for (unsigned n = 0; n < 9000; ++n) {
    if (TWCR & _BV(TWINT)) return true;
    delayMicroseconds(10);
  }
  TWCR = 0;
  TWCR = _BV(TWEN) | _BV(TWEA);
  return false;
}

bool over(bool fine) {
  byte status = TWSR & 0xF8;
  if (status == 0x68) return false;
  if (status == 0x38) {
    TWCR = _BV(TWINT) | _BV(TWEN) | _BV(TWEA);
    return false;
  }
  TWCR = _BV(TWINT) | _BV(TWSTO) | _BV(TWEN) | _BV(TWEA);
  for (unsigned n = 0; n < 9000; ++n) {
    if (!(TWCR & _BV(TWSTO))) return fine;
    delayMicroseconds(10);
  }
  TWCR = _BV(TWEN);
  return false;
}

bool tell(const byte *bytes, byte count) {
  if (TWCR & _BV(TWINT)) return false;
  TWCR = _BV(TWINT) | _BV(TWSTA) | _BV(TWEN) | _BV(TWEA);
  if (!answered()) return false;
  if ((TWSR & 0xF8) != 0x08) return over(false);
  TWDR = 0x4A;
  TWCR = _BV(TWINT) | _BV(TWEN) | _BV(TWEA);
  if (!answered()) return false;
  for (byte i = 0; i < count; ++i) {
    TWDR = bytes[i];
    TWCR = _BV(TWINT) | _BV(TWEN) | _BV(TWEA);
    if (!answered()) return false;
    if ((TWSR & 0xF8) != 0x28) return over(false);
  }
  return over(true);
}

void say(const char text[]) {
  for (int i = 0; text[i] != '\0'; i++) {
    while (!(UCSR0A & _BV(UDRE0))) ;
    UDR0 = text[i];
  }
}

unsigned measured() {
  PORTD |= _BV(4);
  ADCSRA |= _BV(ADSC);
  while (ADCSRA & _BV(ADSC)) ;
  unsigned found = ADC;
  PORTD &= ~_BV(4);
  return found;
}

void setup() {
  DDRD |= _BV(4);
  TCCR2A = 0;
  TCCR2B = _BV(CS22) | _BV(CS21) | _BV(CS20);
  TIMSK2 = _BV(TOIE2);
  TWCR = _BV(TWEN) | _BV(TWEA);
}

void loop() {
  if (beats >= 183) {
    int level = measured() / 7;
    if (level > 100) level = 100;
    char text[8];
    itoa(level, text, 10);
    say("moisture ");
    say(text);
    byte told[2] = {7, (byte) level};
    if (tell(told, 2)) say(" sent");
    else say(" not sent");
    beats = 0;
  }
}
//= signal D4 running: low
//= signal D4 running: high
//= signal D4 running: pulse
