// A reading lamp: the knob sets how bright it is.
// wants D3: 1 kHz within 980..1020 Hz

const int lamp = 3;
const int knob = A0;

void setup() {
  pinMode(lamp, OUTPUT);
  // Meant: prescaler 32, which gives 980 Hz here.
  TCCR2B = TCCR2B | 3 & 0xFB;
}

void loop() {
  analogWrite(lamp, analogRead(knob) / 4);
  delay(20);
}
