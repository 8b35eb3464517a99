// wants D3: 2 kHz +-2 %, 50 steps
const int LAMP = 3;
void setup() {
  pinMode(LAMP, OUTPUT); TCCR2B = (TCCR2B & 0b11111000) | 0x02; // 4 kHz
  Serial.begin(9600);
  TCCR2A |= _BV(WGM21);
}
void loop() {
  for (int i = 0; i < 256; i++) { analogWrite(LAMP, i); delay(5); }
}
