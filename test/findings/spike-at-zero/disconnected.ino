void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = (1 << COM2B1) | (1 << WGM21) | (1 << WGM20);
  TCCR2B = (1 << CS21);
}
int v;
void loop() { v = analogRead(A0) / 4;
  OCR2B = v;
//= finding spike-at-zero "At OCR2B = 0 fast PWM still gives one tick in 256: 500 ns high, 0.391 %, at D3"
//= fix "Disconnect D3 at 0"
}
