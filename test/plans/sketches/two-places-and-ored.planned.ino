// wants D3: 2 kHz +-2 %, 50 steps
const int LAMP = 3;
void setup() {
  pinMode(LAMP, OUTPUT);
  TCCR2B = 0;
  TCCR2A = 0;
  TCNT2 = 0;
  OCR2A = 249;
  TCCR2A = _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);  // 2 kHz on D3: fast PWM, prescaler 32, TOP 249
  Serial.begin(9600);
}
void loop() {
  for (int i = 0; i < 256; i++) { analogWrite(LAMP, map(i, 0, 255, 0, 249)); delay(5); }
}
