// A remote's carrier rests low between its marks, which is meant; the lamp rests high, which is not.
// wants D3: ir-38khz
// wants D9: 490 Hz, duty 20..80 %, idle low
//=^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding duty-out-of-want "D9: the pin rests high, low is wanted"
void carrier(bool on) {
  if (on) TCCR2A |= _BV(COM2B1);
  else TCCR2A &= ~_BV(COM2B1);
}

void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS20);
  OCR2A = 211;
  OCR2B = 80;
}

void loop() {
  carrier(true);
  delayMicroseconds(560);
  carrier(false);
  analogWrite(9, 128);
  delay(40);
  analogWrite(9, 255);
  delay(40);
}
