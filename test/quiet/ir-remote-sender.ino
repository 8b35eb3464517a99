// Infrared commands for the shade's motor: 38 kHz on D3 with a third of duty, gated by COM2B1.
#define CARRIER_TOP (F_CPU / 8 / 38000 - 1)

static void mark(unsigned int us) {
  TCCR2A |= _BV(COM2B1);
  delayMicroseconds(us);
}

static void space(unsigned int us) {
  TCCR2A &= ~_BV(COM2B1);
  delayMicroseconds(us);
}

void sendByte(byte data) {
  for (byte i = 0; i < 8; i++) {
    mark(560);
    if (data & 1) space(1690); else space(560);
    data >>= 1;
  }
}

void setup() {
  pinMode(3, OUTPUT);
  digitalWrite(3, LOW);
  TCCR2A = _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS21);
  OCR2A = CARRIER_TOP;
  OCR2B = CARRIER_TOP / 3;
}

void loop() {
  mark(9000);
  space(4500);
  sendByte(0x5A);
  mark(560);
  space(560);
  delay(500);
}
