// Four-wire fan above the tomato bench: 25 kHz, faster as it gets warmer.
// wants D9: 25 kHz within 21..28 kHz, 100 steps

const int fan = 9;
const int thermometer = A1;
const unsigned int fullSpeed = 320;

void setup() {
  pinMode(fan, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = fullSpeed;
  OCR1A = 64;
}

void loop() {
  int warmth = analogRead(thermometer);
  warmth = constrain(warmth, 300, 700);
  OCR1A = map(warmth, 300, 700, 64, 400);
  delay(500);
}
